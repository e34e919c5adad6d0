import type { FastifyInstance } from 'fastify'
import type { Context } from '../context/context.ts'
import { sendDuePushes } from '../notices/services/push/send-due-pushes.ts'
import { whileListening } from './while-listening.ts'

/** How often it looks whether something is due. */
const LOOK_MS = 5_000

/** Sends notifications while the server listens; what is under way as it stops comes to its end first. */
export function registerPushSender(app: FastifyInstance, context: Context, everyMs = LOOK_MS): void {
  if (context.push === null) return
  whileListening(app, everyMs, async () => {
    try {
      while ((await sendDuePushes(context)) > 0);
    } catch (error) {
      app.log.error({ err: error }, 'Notifications were not sent')
    }
  })
}

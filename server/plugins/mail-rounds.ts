import type { FastifyInstance } from 'fastify'
import type { Context } from '../context/context.ts'
import { mailRounds } from '../mail/services/mail-rounds.ts'
import { whileListening } from './while-listening.ts'

/** So often it is looked what is to go out. */
export const MAIL_EVERY_MS = 15_000

/** Sends mail by itself from when the server listens until it stops; what it is at then is finished first. */
export function registerMailRounds(app: FastifyInstance, context: Context, everyMs: number): void {
  if (context.mail === null) return
  // What failed is said without what the mail was about.
  const failed = (error: unknown) => app.log.error({ err: error }, 'A round of mail failed')
  whileListening(app, everyMs, mailRounds(context, failed))
}

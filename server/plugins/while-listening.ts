import type { FastifyInstance } from 'fastify'

/**
 * Does something again and again, so long after the last time, from when the server listens until it stops; what is under way
 * then is finished first. A round must not throw.
 */
export function whileListening(app: FastifyInstance, everyMs: number, round: () => Promise<void>): void {
  let timer: NodeJS.Timeout | undefined
  let running: Promise<void> = Promise.resolve()
  let closing = false
  const again = () => {
    timer = setTimeout(() => {
      running = round().then(() => {
        if (!closing) again()
      })
    }, everyMs).unref()
  }
  app.addHook('onListen', async () => again())
  app.addHook('preClose', async () => {
    closing = true
    clearTimeout(timer)
    await running
  })
}

import type { FastifyInstance } from 'fastify'
import { AppError } from '../errors.ts'

/**
 * Refuses a compressed body before any of it is read: nothing here is inflated, so a small body can never become a large
 * one. Says with `Accept-Encoding` what is taken (RFC 9110, 15.5.16), and closes, for the rest may be long.
 */
export function registerPlainBodies(app: FastifyInstance): void {
  app.addHook('onRequest', async ({ headers }, reply) => {
    const encoding = headers['content-encoding']?.trim().toLowerCase() ?? ''
    if (encoding === '' || encoding === 'identity') return
    reply.header('accept-encoding', 'identity').header('connection', 'close')
    throw new AppError('wrong-media-type', 'content-encoding', 'The body is compressed. Send it as it is.')
  })
}

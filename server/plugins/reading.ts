import type { FastifyInstance } from 'fastify'
import type { Context } from '../context/context.ts'
import { hasStandbys } from '../db/client.ts'
import { beginReading } from '../db/standbys/reading.ts'
import { isApi } from './is-api.ts'

declare module 'fastify' {
  interface FastifyContextConfig {
    /** The primary answers it, though it only reads. */
    primary?: true
  }
}

/**
 * Lets standbys answer what only reads, where there are any: every question of a GET. Who asks has been found out before, by the
 * primary; what lasts longer than an answer, like a live line, says that it stays there too.
 */
export function registerReading(app: FastifyInstance, { db }: Context): void {
  if (!hasStandbys(db)) return
  app.addHook('onRequest', (request, reply, done) => {
    const { method, routeOptions } = request
    if (method !== 'GET' || !isApi(request) || routeOptions.config.primary) return done()
    reply.raw.once('close', beginReading(done))
  })
}

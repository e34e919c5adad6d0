import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Actor } from '../domain/access/actor.ts'
import { AppError } from '../errors.ts'
import { actorOfToken } from '../services/accounts/sign-in.ts'
import type { Context } from '../services/context.ts'

export const SESSION_COOKIE = 'reviewstand_session'

declare module 'fastify' {
  interface FastifyRequest {
    /** Who is signed in; null on routes that are open. */
    signedIn: Actor | null
  }
  interface FastifyContextConfig {
    /** Answers without a session. */
    open?: boolean
  }
}

/** Finds out who asks, and refuses every API route that is not marked open without a session. */
export function registerSession(app: FastifyInstance, context: Context): void {
  app.decorateRequest('signedIn', null)
  app.addHook('onRequest', async (request) => {
    if (!request.url.startsWith('/api/') || request.routeOptions.config.open) return
    const actor = await actorOfToken(context, request.cookies[SESSION_COOKIE])
    request.signedIn = actor && { ...actor, address: request.ip }
    if (request.signedIn === null) {
      throw new AppError('not-signed-in', 'not-signed-in', 'Sign in first: POST /api/session with name and password.')
    }
  })
}

/** Who asks. Every route that is not open has somebody. */
export function actorOf(request: FastifyRequest): Actor {
  if (request.signedIn === null) throw new Error('actorOf: an open route has no actor')
  return request.signedIn
}

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { actorOfToken } from '../accounts/services/sessions/actor-of-token.ts'
import type { Keys } from '../accounts/services/sessions/open-session.ts'
import { DEVICE_MS, LONGEST_MS } from '../accounts/services/sessions/session-life.ts'
import type { Visitor } from '../accounts/services/sessions/visitor.ts'
import { isToken } from '../accounts/services/token.ts'
import { actorOfScript } from '../accounts/services/tokens/actor-of-script.ts'
import type { Context } from '../context/context.ts'
import type { Actor, TokenScope } from '../domain/access/actor.ts'
import { AppError } from '../errors.ts'
import { addressOf } from './address-of.ts'
import { isApi } from './is-api.ts'

export const SESSION_COOKIE = 'reviewstand_session'
const DEVICE_COOKIE = 'reviewstand_device'

declare module 'fastify' {
  interface FastifyRequest {
    /** Who is signed in; null on routes that are open. */
    signedIn: Actor | null
  }
  interface FastifyContextConfig {
    /** Answers without a session. */
    open?: boolean
    /** What a script's token must be for to be answered; left out: no token is. */
    token?: TokenScope
  }
}

/** Finds out who asks, and refuses every API route that is not marked open without a session. */
export function registerSession(app: FastifyInstance, context: Context): void {
  app.decorateRequest('signedIn', null)
  app.addHook('onRequest', async (request, reply) => {
    if (!isApi(request) || request.routeOptions.config.open) return
    const bearer = bearerIn(request.headers.authorization)
    const actor =
      bearer === undefined
        ? await actorOfToken(context, visitorOf(request).sessionToken)
        : await actorOfBearer(context, request, reply, bearer)
    request.signedIn = actor && { ...actor, address: addressOf(request) }
    if (request.signedIn === null) {
      throw new AppError('not-signed-in', 'not-signed-in', 'Sign in first: POST /api/session with name and password.')
    }
  })
}

/** The token a script shows (RFC 6750); any other scheme is for a proxy before us, and none of ours. */
const bearerIn = (authorization: string | undefined): string | undefined =>
  /^bearer +(\S+) *$/i.exec(authorization ?? '')?.[1]

/** A script has a token and no session: whoever sends both may not know which of them acts. */
async function actorOfBearer(
  context: Context,
  request: FastifyRequest,
  reply: FastifyReply,
  bearer: string,
): Promise<Actor> {
  if (request.cookies[cookieName(request, SESSION_COOKIE)] !== undefined) {
    const detail = 'This came with a token and with the cookie of a session. Send one of them.'
    throw new AppError('malformed-request', 'token-and-session', detail)
  }
  try {
    return await actorOfScript(context, bearer, request.routeOptions.config?.token)
  } catch (error) {
    if (error instanceof AppError && error.kind === 'not-signed-in') {
      reply.header('www-authenticate', 'Bearer error="invalid_token"')
    }
    throw error
  }
}

/** Who asks. Every route that is not open has somebody. */
export function actorOf(request: FastifyRequest): Actor {
  if (request.signedIn === null) throw new Error('actorOf: an open route has no actor')
  return request.signedIn
}

/** The browser behind a request. A cookie that cannot be one of ours counts as none. */
export function visitorOf(request: FastifyRequest): Visitor {
  const tokenIn = (name: string) => {
    const text = request.cookies[cookieName(request, name)]
    return text !== undefined && isToken(text) ? text : undefined
  }
  return {
    address: addressOf(request),
    userAgent: request.headers['user-agent'],
    sessionToken: tokenIn(SESSION_COOKIE),
    deviceToken: tokenIn(DEVICE_COOKIE),
  }
}

/** Gives a browser the keys of a session just opened. */
export function setSessionCookie(reply: FastifyReply, { sessionToken, deviceToken }: Keys): void {
  setCookie(reply, SESSION_COOKIE, sessionToken, LONGEST_MS)
  setCookie(reply, DEVICE_COOKIE, deviceToken, DEVICE_MS)
}

/** Takes the session's cookie back; the device stays known. */
export function clearSessionCookie(reply: FastifyReply): void {
  setCookie(reply, SESSION_COOKIE, '', 0)
}

/** Behind TLS the prefix binds a cookie to this very host, so that no sister host nor plain HTTP can plant one. */
function cookieName({ protocol }: FastifyRequest, name: string): string {
  return protocol === 'https' ? `__Host-${name}` : name
}

function setCookie(reply: FastifyReply, name: string, value: string, lifeMs: number): void {
  const secure = reply.request.protocol === 'https'
  const maxAge = lifeMs / 1000
  reply.setCookie(cookieName(reply.request, name), value, {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    secure,
    maxAge,
  })
}

import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { type Confirmed, mustConfirm } from '../accounts/services/confirmation.ts'
import { HALF_MS } from '../accounts/services/sessions/complete-sign-in.ts'
import { type Holder, holderOfToken } from '../accounts/services/sessions/holder-of-token.ts'
import type { Keys } from '../accounts/services/sessions/open-session.ts'
import { DEVICE_MS, LONGEST_MS } from '../accounts/services/sessions/session-life.ts'
import type { Visitor } from '../accounts/services/sessions/visitor.ts'
import { hashToken, isToken } from '../accounts/services/token.ts'
import { actorOfScript } from '../accounts/services/tokens/actor-of-script.ts'
import type { Context } from '../context/context.ts'
import type { Actor, TokenScope } from '../domain/access/actor.ts'
import { AppError } from '../errors.ts'
import { addressOf } from './address-of.ts'
import { isApi } from './is-api.ts'

export const SESSION_COOKIE = 'reviewstand_session'
const DEVICE_COOKIE = 'reviewstand_device'
const HALF_COOKIE = 'reviewstand_half'
const ATTEMPT_COOKIE = 'reviewstand_sign_on'

declare module 'fastify' {
  interface FastifyRequest {
    /** Who is signed in; null on routes that are open. */
    signedIn: Actor | null
    /** The session is only good for setting up a second factor. */
    onlyEnrols: boolean
  }
  interface FastifyContextConfig {
    /** Answers without a session. */
    open?: boolean
    /** What a script's token must be for to be answered; left out: no token is. */
    token?: TokenScope
    /** Before it is done, whoever is signed in proves once more who they are; or only where their account has a second factor. */
    confirmed?: Confirmed
    /** Answers a session that is only good for setting up a second factor. */
    enrolling?: true
  }
}

/** Finds out who asks, and refuses every API route that is not marked open without a session. */
export function registerSession(app: FastifyInstance, context: Context): void {
  app.decorateRequest('signedIn', null)
  app.decorateRequest('onlyEnrols', false)
  app.addHook('onRequest', async (request, reply) => {
    if (!isApi(request) || request.routeOptions.config.open) return
    const bearer = bearerIn(request.headers.authorization)
    const holder =
      bearer === undefined
        ? await holderOfToken(context, visitorOf(request).sessionToken)
        : { actor: await actorOfBearer(context, request, reply, bearer), confirmedAt: null, onlyEnrols: false }
    request.onlyEnrols = holder?.onlyEnrols ?? false
    request.signedIn = holder && { ...holder.actor, address: addressOf(request) }
    if (holder === null) {
      throw new AppError('not-signed-in', 'not-signed-in', 'Sign in first: POST /api/session with name and password.')
    }
    await requireGoodEnough(context, request, holder)
  })
}

/** Refuses a session that is not good for this: only for setting up a factor, or confirmed too long ago. */
async function requireGoodEnough(
  context: Context,
  { routeOptions: { config } }: FastifyRequest,
  holder: Holder,
): Promise<void> {
  if (holder.onlyEnrols && !config.enrolling) {
    const detail = 'Your roles need a second factor. Set one up under My account; nothing else can be done before.'
    throw new AppError('not-allowed', 'second-factor-required', detail)
  }
  if (!config.confirmed || !(await mustConfirm(context, holder, config.confirmed))) return
  const detail = 'Show once more who you are: POST /api/account/confirmation. Then do this again; nothing was done yet.'
  throw new AppError('not-allowed', 'confirm-identity', detail)
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
    halfToken: tokenIn(HALF_COOKIE),
  }
}

/** By what the session of a request is known in the database. */
export const sessionHashOf = (request: FastifyRequest): Buffer => hashToken(visitorOf(request).sessionToken ?? '')

/** How the browser names this server: the cookies it is given are shown to no other host. */
export const originOf = ({ protocol, host }: FastifyRequest): string =>
  URL.canParse(`${protocol}://${host}`) ? new URL(`${protocol}://${host}`).origin : ''

/** Gives a browser the keys of a session just opened. */
export function setSessionCookie(reply: FastifyReply, { sessionToken, deviceToken }: Keys): void {
  setCookie(reply, SESSION_COOKIE, sessionToken, LONGEST_MS)
  if (deviceToken !== null) setCookie(reply, DEVICE_COOKIE, deviceToken, DEVICE_MS)
}

/** Gives a browser what it comes back from a provider with: the one cookie that it shows on the way from another site. */
export function setAttemptCookie(reply: FastifyReply, token: string, lifeMs: number): void {
  setCookie(reply, ATTEMPT_COOKIE, token, lifeMs, 'lax')
}

/** What a browser shows that comes back from a provider; whatever comes of it, it does not show it again. */
export function takeAttemptCookie(request: FastifyRequest, reply: FastifyReply): string | undefined {
  const text = request.cookies[cookieName(request, ATTEMPT_COOKIE)]
  if (text !== undefined) setCookie(reply, ATTEMPT_COOKIE, '', 0, 'lax')
  return text !== undefined && isToken(text) ? text : undefined
}

/** Gives a browser the token of a sign-in that is halfway, or takes it back. */
export function setHalfCookie(reply: FastifyReply, halfToken: string | null): void {
  setCookie(reply, HALF_COOKIE, halfToken ?? '', halfToken === null ? 0 : HALF_MS)
}

/** Takes the session's cookie back; the device stays known. */
export function clearSessionCookie(reply: FastifyReply): void {
  setCookie(reply, SESSION_COOKIE, '', 0)
}

/** Behind TLS the prefix binds a cookie to this very host, so that no sister host nor plain HTTP can plant one. */
function cookieName({ protocol }: FastifyRequest, name: string): string {
  return protocol === 'https' ? `__Host-${name}` : name
}

function setCookie(
  reply: FastifyReply,
  name: string,
  value: string,
  lifeMs: number,
  sameSite: 'strict' | 'lax' = 'strict',
): void {
  const secure = reply.request.protocol === 'https'
  const maxAge = lifeMs / 1000
  reply.setCookie(cookieName(reply.request, name), value, {
    path: '/',
    httpOnly: true,
    sameSite,
    secure,
    maxAge,
  })
}

import { type JWTPayload, type JWTVerifyGetKey, jwtVerify } from 'jose'

/** Signed with a key that only the provider has; a secret that we have, too, signs nothing here. */
const ALGORITHMS = ['RS256', 'RS384', 'RS512', 'PS256', 'PS384', 'PS512', 'ES256', 'ES384', 'ES512', 'EdDSA', 'Ed25519']
const EVENT = 'http://schemas.openid.net/event/backchannel-logout'
const OLDEST_SECONDS = 300
const TOLERANCE_SECONDS = 30
/** An older token is refused for its age, so that one need not be remembered for longer. */
const REMEMBERED_SECONDS = OLDEST_SECONDS + 2 * TOLERANCE_SECONDS

/** Whose session ended at the provider. */
export interface SignedOut {
  readonly tokenId: string
  readonly subject: string | null
  readonly providerSid: string | null
  /** Until when the same token could be sent again. */
  readonly expiresAt: Date
}

/**
 * Reads a logout token (OpenID Connect Back-Channel Logout 1.0, section 2.6): signature, issuer, audience, age, the event, and
 * that it is no ID token. Throws an error of `jose`, or TypeError, for any other.
 */
export async function readLogoutToken(
  token: string,
  keys: JWTVerifyGetKey,
  { issuer, clientId, now }: { issuer: string; clientId: string; now: Date },
): Promise<SignedOut> {
  const { payload, protectedHeader } = await jwtVerify(token, keys, {
    algorithms: ALGORITHMS,
    issuer,
    audience: clientId,
    currentDate: now,
    clockTolerance: TOLERANCE_SECONDS,
    maxTokenAge: OLDEST_SECONDS,
    requiredClaims: ['iat', 'jti', 'events'],
  })
  const { typ } = protectedHeader
  if (typ !== undefined && !/^(application\/)?(logout\+)?jwt$/i.test(typ)) throw new TypeError('Another kind of token')
  if ('nonce' in payload) throw new TypeError('A logout token has no nonce')
  if (!namesEvent(payload)) throw new TypeError('It is about another event')
  const subject = textOf(payload.sub)
  const providerSid = textOf(payload.sid)
  const tokenId = textOf(payload.jti)
  if (tokenId === null || (subject === null && providerSid === null)) throw new TypeError('It names nobody')
  return { tokenId, subject, providerSid, expiresAt: new Date((payload.iat! + REMEMBERED_SECONDS) * 1000) }
}

/** What PostgreSQL can hold, and no provider makes longer. */
const textOf = (value: unknown): string | null =>
  typeof value === 'string' && /^[^\0\p{Surrogate}]{1,500}$/u.test(value) ? value : null

function namesEvent({ events }: JWTPayload): boolean {
  if (typeof events !== 'object' || events === null || !Object.hasOwn(events, EVENT)) return false
  const event = (events as Record<string, unknown>)[EVENT]
  return typeof event === 'object' && event !== null
}

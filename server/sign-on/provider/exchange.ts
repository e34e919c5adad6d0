import {
  authorizationCodeGrant,
  buildAuthorizationUrl,
  type Configuration,
  calculatePKCECodeChallenge,
  fetchUserInfo,
  randomNonce,
  randomPKCECodeVerifier,
  randomState,
} from 'openid-client'
import type { Claims } from '../../domain/access/claim-rules.ts'

/** A token that was signed so much later than now, or earlier than somebody can have left for it, goes by another clock. */
const TOLERANCE_SECONDS = 60
const OLDEST_SECONDS = 600 + TOLERANCE_SECONDS
/** At most 255 ASCII characters (OpenID Connect Core, section 2). */
const SUBJECT = /^[\x20-\x7e]{1,255}$/
/** A provider that is told how old a sign-in may be says when it was (OpenID Connect Core, section 3.1.2.1). */
const LONGEST_REMEMBERED_SECONDS = 7 * 24 * 3600
const STORABLE = /^[^\0\p{Surrogate}]{1,500}$/u

/** What only this browser's way to the provider and back knows. */
export interface Secrets {
  readonly state: string
  readonly nonce: string
  readonly verifier: string
}

/**
 * Where a browser is sent to sign in, and the secrets its return is known by (code flow with PKCE, RFC 7636). `anew`: the
 * provider is to ask who it is, also where it remembers.
 */
export async function beginExchange(
  configuration: Configuration,
  { returnAddress, scopes, anew }: { returnAddress: string; scopes: string; anew: boolean },
): Promise<{ address: string; secrets: Secrets }> {
  const secrets = { state: randomState(), nonce: randomNonce(), verifier: randomPKCECodeVerifier() }
  const address = buildAuthorizationUrl(configuration, {
    redirect_uri: returnAddress,
    scope: scopes,
    max_age: String(anew ? 0 : LONGEST_REMEMBERED_SECONDS),
    state: secrets.state,
    nonce: secrets.nonce,
    code_challenge: await calculatePKCECodeChallenge(secrets.verifier),
    code_challenge_method: 'S256',
  })
  return { address: address.href, secrets }
}

/** Who came back, as the provider signed it. */
export interface SignedIn {
  readonly subject: string
  readonly claims: Claims
  readonly idToken: string
  /** When they showed the provider who they are; null: it does not say. */
  readonly shownAt: Date | null
  /** The provider's id of its session; null: it told none. */
  readonly providerSid: string | null
}

/**
 * Trades the code for the ID token and checks it: issuer, audience, nonce, times, signature. In: the whole address the browser
 * came back to, the secrets it left with, the time, and whether the provider is asked for more claims than the token has.
 * Throws what `problemWithProvider` names.
 */
export async function finishExchange(
  configuration: Configuration,
  cameBackTo: URL,
  { state, nonce, verifier }: Secrets,
  { now, asksMore }: { now: Date; asksMore: boolean },
): Promise<SignedIn | 'clock-off' | 'other-provider'> {
  if (isFromAnother(configuration, cameBackTo)) return 'other-provider'
  const tokens = await authorizationCodeGrant(configuration, cameBackTo, {
    expectedState: state,
    expectedNonce: nonce,
    pkceCodeVerifier: verifier,
    idTokenExpected: true,
  })
  const claims = tokens.claims()!
  const age = now.getTime() / 1000 - claims.iat
  if (age < -TOLERANCE_SECONDS || age > OLDEST_SECONDS) return 'clock-off'
  const hasMore = asksMore && configuration.serverMetadata().userinfo_endpoint !== undefined
  const more = hasMore ? await fetchUserInfo(configuration, tokens.access_token, claims.sub) : {}
  const sid = typeof claims.sid === 'string' && STORABLE.test(claims.sid) ? claims.sid : null
  if (!SUBJECT.test(claims.sub)) throw new TypeError('The subject is none')
  const shownAt = shownAtOf(claims.auth_time, now)
  return { subject: claims.sub, claims: { ...more, ...claims }, idToken: tokens.id_token!, shownAt, providerSid: sid }
}

/** In: seconds since 1970, as signed. Out: never later than now; null where it is none, or much later. */
function shownAtOf(seconds: number | undefined, now: Date): Date | null {
  if (seconds === undefined || seconds < 0 || seconds > now.getTime() / 1000 + TOLERANCE_SECONDS) return null
  return new Date(Math.min(seconds * 1000, now.getTime()))
}

/** Whether an answer says it is of another issuer, or fails to say of whom it is where this one always does (RFC 9207). */
function isFromAnother(configuration: Configuration, { searchParams }: URL): boolean {
  const { issuer, authorization_response_iss_parameter_supported: always } = configuration.serverMetadata()
  const said = searchParams.getAll('iss')
  return said.length === 0 ? always === true : said.some((each) => each !== issuer)
}

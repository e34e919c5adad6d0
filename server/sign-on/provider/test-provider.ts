import {
  authorizationCodeGrant,
  ResponseBodyError,
  type ServerMetadata,
  WWWAuthenticateChallengeError,
} from 'openid-client'
import type { ProviderTest } from '../../contract/sign-on/providers.ts'
import { providerFetch } from './provider-fetch.ts'
import { ProviderSilent, problemWithProvider } from './provider-problem.ts'
import type { ProviderClient, Providers } from './providers.ts'

type Finding = ProviderTest['findings'][number]

/** Our clocks may differ by this much before tokens look too old or too new. */
const CLOCK_SECONDS = 30

interface Tested extends ProviderClient {
  readonly scopes: string
  readonly returnAddress: string
}

/** Goes through what a sign-in needs of a provider, short of signing in, and says what was found, in words. */
export async function testProvider(
  providers: Providers,
  tested: Tested,
  { now, allowsLoopback }: { now: Date; allowsLoopback: boolean },
): Promise<ProviderTest> {
  const answer = await whatItIs(providers, tested.issuer)
  if (typeof answer === 'string') return { works: false, findings: [{ kind: 'bad', says: answer }] }
  const findings = [
    { kind: 'good', says: `${tested.issuer} answers, and says it is this issuer.` } as const,
    ...whatItOffers(answer, tested.scopes),
    ...(await whatItSignsWith(answer, { now, allowsLoopback })),
    await whetherItKnowsUs(providers, tested, answer),
    whetherItEnds(answer),
  ]
  return { works: findings.every(({ kind }) => kind !== 'bad'), findings }
}

async function whatItIs(providers: Providers, issuer: string): Promise<ServerMetadata | string> {
  try {
    return await providers.discover(issuer)
  } catch (error) {
    const problem = problemWithProvider(error)
    if (problem === null) throw error
    if (error instanceof ProviderSilent) return `${issuer} does not answer: ${whySilent(error)}`
    if (problem === 'provider-silent')
      return `${issuer} answers, but not as an OpenID Connect provider. Check the address to the last letter; it often has a path.`
    return `What ${issuer} says of itself is that of another issuer. Copy the issuer from there as it is, with or without a slash at the end.`
  }
}

const UNTRUSTED =
  'its certificate is signed by nobody this server trusts. Start it with NODE_EXTRA_CA_CERTS naming the file of your own authority.'

const WHY: Record<string, string> = {
  ENOTFOUND: 'no server has this name. Check it for a typing mistake.',
  EAI_AGAIN: 'its name cannot be looked up just now. Check the network of this server.',
  ECONNREFUSED: 'nothing listens there. Check the address and the port.',
  ECONNRESET: 'it broke off the connection.',
  ETIMEDOUT: 'it takes too long. Check the network and what stands between.',
  CERT_HAS_EXPIRED: 'its certificate has expired. Whoever runs it must renew that.',
  DEPTH_ZERO_SELF_SIGNED_CERT: UNTRUSTED,
  SELF_SIGNED_CERT_IN_CHAIN: UNTRUSTED,
  UNABLE_TO_VERIFY_LEAF_SIGNATURE: UNTRUSTED,
  UNABLE_TO_GET_ISSUER_CERT_LOCALLY: UNTRUSTED,
  ERR_TLS_CERT_ALTNAME_INVALID: 'its certificate is for another name.',
}

/** The reason lies some causes deep. */
function whySilent(error: Error): string {
  let cause: unknown = error
  while (cause instanceof Error) {
    const said = WHY[(cause as NodeJS.ErrnoException).code ?? '']
    if (said) return said
    if (cause.name === 'TimeoutError') return WHY.ETIMEDOUT!
    cause = cause.cause
  }
  return 'the connection failed.'
}

function whatItOffers(metadata: ServerMetadata, scopes: string): Finding[] {
  const findings: Finding[] = []
  const missing = (['authorization_endpoint', 'token_endpoint', 'jwks_uri'] as const).filter((name) => !metadata[name])
  if (missing.length > 0)
    findings.push(bad(`It does not say where its ${missing.join(', ')} is; nobody can sign in by it.`))
  if (metadata.response_types_supported && !metadata.response_types_supported.includes('code'))
    findings.push(bad('It does not offer the code flow, which is the only one used here.'))
  if (!metadata.code_challenge_methods_supported?.includes('S256'))
    findings.push(note('It does not say that it checks PKCE with S256. It is sent all the same.'))
  const unknown = scopes.split(' ').filter((each) => metadata.scopes_supported?.includes(each) === false)
  if (unknown.length > 0)
    findings.push(note(`It does not list the scopes ${unknown.join(', ')}; it may ignore or refuse them.`))
  return findings
}

async function whatItSignsWith(
  { jwks_uri: address }: ServerMetadata,
  { now, allowsLoopback }: { now: Date; allowsLoopback: boolean },
): Promise<Finding[]> {
  if (!address) return []
  try {
    const signal = AbortSignal.timeout(5_000)
    const answer = await providerFetch(allowsLoopback)(address, {
      method: 'GET',
      headers: {},
      body: null,
      redirect: 'manual',
      signal,
    })
    const { keys } = (await answer.json()) as { keys?: { use?: string; kty?: string }[] }
    const signing = (keys ?? []).filter(({ use, kty }) => use !== 'enc' && kty !== 'oct')
    if (signing.length === 0) return [bad(`At ${address} there is no key it could sign with.`)]
    return [
      good(`It signs with ${signing.length === 1 ? 'one key' : `one of ${signing.length} keys`}.`),
      ...clockOf(answer, now),
    ]
  } catch {
    return [bad(`Its keys at ${address} cannot be read.`)]
  }
}

function clockOf({ headers }: Response, now: Date): Finding[] {
  const there = Date.parse(headers.get('date') ?? '')
  const apart = Math.round(Math.abs(there - now.getTime()) / 1000)
  if (Number.isNaN(there) || apart <= CLOCK_SECONDS) return []
  return [
    bad(
      `Its clock and this server’s are ${apart} seconds apart, so its tokens look too old or too new. Set both by a time server.`,
    ),
  ]
}

/** A made-up code is refused; before that, a client that is not known or shows a wrong secret. */
async function whetherItKnowsUs(providers: Providers, tested: Tested, metadata: ServerMetadata): Promise<Finding> {
  if (!metadata.token_endpoint) return note('Whether it knows this client could not be tried.')
  const back = new URL(tested.returnAddress)
  back.search = new URLSearchParams({ code: 'made-up', state: 's', iss: metadata.issuer }).toString()
  try {
    const checks = { expectedState: 's', pkceCodeVerifier: 'v'.repeat(43) }
    await authorizationCodeGrant(providers.configure(tested, metadata), back, checks)
    return bad('It takes a code that was made up.')
  } catch (error) {
    if (error instanceof ResponseBodyError && error.error === 'invalid_grant')
      return good('It knows the client, and takes its secret.')
    if (error instanceof WWWAuthenticateChallengeError || problemWithProvider(error) === 'client-refused')
      return bad('It refuses the client. Check the client id, and type the client secret again.')
    return note('Whether it knows the client could not be found out; a sign-in will show.')
  }
}

function whetherItEnds({ end_session_endpoint: end, backchannel_logout_supported: tells }: ServerMetadata): Finding {
  if (end && tells) return good('Signing out ends its session too, and it tells this server when it ends one itself.')
  if (end)
    return note(
      'Signing out here ends its session too. It does not say that it tells this server when it ends one itself.',
    )
  return note('Signing out here leaves its own session open; it does not say how to end that.')
}

const good = (says: string): Finding => ({ kind: 'good', says })
const note = (says: string): Finding => ({ kind: 'note', says })
const bad = (says: string): Finding => ({ kind: 'bad', says })

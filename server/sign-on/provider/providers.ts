import { createRemoteJWKSet, errors, type JWTVerifyGetKey, customFetch as josesFetch } from 'jose'
import {
  allowInsecureRequests,
  ClientSecretBasic,
  ClientSecretPost,
  Configuration,
  clockSkew,
  customFetch,
  discovery,
  enableNonRepudiationChecks,
  None,
  type ServerMetadata,
} from 'openid-client'
import { providerFetch } from './provider-fetch.ts'
import { ProviderSilent } from './provider-problem.ts'

const TIMEOUT_SECONDS = 5
/** So long it is taken for true what a provider said of itself, and that it does not answer. */
const KNOWN_MS = 600_000
const SILENT_MS = 15_000
/** An unknown key makes us ask for the keys again, but not more often than this. */
const KEYS_EACH_MS = 5_000

/** What we need to know to speak with a provider. */
export interface ProviderClient {
  readonly issuer: string
  readonly clientId: string
  readonly clientSecret: string | null
}

export interface Providers {
  /** Asks a provider what it is and where its doors are. Throws what `problemWithProvider` names. */
  discover(issuer: string): Promise<ServerMetadata>
  /** The same as it was said within the last ten minutes. */
  known(issuer: string): Promise<ServerMetadata>
  /** Whether a provider answered within the last ten minutes, or does now; that it does not is believed for 15 seconds. */
  answers(issuer: string): Promise<boolean>
  /** What one exchange with a provider goes by. Its keys are asked for anew each time, so that a new key holds at once. */
  configure(provider: ProviderClient, metadata: ServerMetadata): Configuration
  /** The keys a provider signs with. Finding one throws ProviderSilent where nothing can be said, for they cannot be had just now. */
  keysOf(metadata: ServerMetadata): JWTVerifyGetKey
}

/** In: whether providers on this very machine may go without TLS, and what the server takes for now. */
export function openProviders(allowsLoopback: boolean, clock: () => Date): Providers {
  const ask = providerFetch(allowsLoopback)
  const heard = new Map<string, { at: number; metadata: ServerMetadata | null }>()
  const keys = new Map<string, JWTVerifyGetKey>()
  const insecurely = allowsLoopback ? [allowInsecureRequests] : []

  async function discover(issuer: string): Promise<ServerMetadata> {
    try {
      const options = { execute: insecurely, timeout: TIMEOUT_SECONDS, [customFetch]: ask }
      const metadata = (await discovery(new URL(issuer), 'none', undefined, None(), options)).serverMetadata()
      if (new URL(metadata.issuer).href !== new URL(issuer).href) throw new TypeError('It names another issuer')
      heard.set(issuer, { at: Date.now(), metadata })
      return metadata
    } catch (error) {
      heard.set(issuer, { at: Date.now(), metadata: null })
      throw error
    }
  }

  async function known(issuer: string): Promise<ServerMetadata> {
    const last = heard.get(issuer)
    return last?.metadata && Date.now() - last.at < KNOWN_MS ? last.metadata : discover(issuer)
  }

  async function answers(issuer: string): Promise<boolean> {
    const last = heard.get(issuer)
    if (last?.metadata === null && Date.now() - last.at < SILENT_MS) return false
    return known(issuer).then(
      () => true,
      () => false,
    )
  }

  function configure({ clientId, clientSecret }: ProviderClient, metadata: ServerMetadata): Configuration {
    const skew = Math.round((clock().getTime() - Date.now()) / 1000)
    // A client that is registered without another word shows its secret as HTTP does (OpenID Connect Registration, section 2).
    const ways = metadata.token_endpoint_auth_methods_supported ?? ['client_secret_basic']
    const show = ways.includes('client_secret_basic') ? ClientSecretBasic : ClientSecretPost
    const auth = clientSecret === null ? None() : show(clientSecret)
    const configuration = new Configuration(metadata, clientId, { [clockSkew]: skew }, auth)
    configuration.timeout = TIMEOUT_SECONDS
    configuration[customFetch] = ask
    for (const extend of [enableNonRepudiationChecks, ...insecurely]) extend(configuration)
    return configuration
  }

  function keysOf({ jwks_uri: address }: ServerMetadata): JWTVerifyGetKey {
    if (address === undefined) throw new ProviderSilent('The provider does not say where its keys are')
    const found = keys.get(address)
    if (found) return found
    const options = { cooldownDuration: KEYS_EACH_MS, [josesFetch]: ask as typeof fetch }
    const remote = createRemoteJWKSet(new URL(address), options)
    const made: JWTVerifyGetKey = async (header, token) => {
      const wasAskedJustNow = remote.coolingDown
      return remote(header, token).catch((cause: unknown) => {
        // A key newer than what was heard a moment ago is none of a stranger's.
        const isOfToken = cause instanceof errors.JWKSNoMatchingKey ? !wasAskedJustNow : isAboutToken(cause)
        throw isOfToken ? cause : new ProviderSilent('The keys cannot be had just now', { cause })
      })
    }
    keys.set(address, made)
    return made
  }

  return { discover, known, answers, configure, keysOf }
}

const isAboutToken = (error: unknown): boolean =>
  error instanceof errors.JWKSMultipleMatchingKeys || error instanceof errors.JOSENotSupported

import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { decodeJwt, exportJWK, generateKeyPair, type JWK, type JWTPayload, SignJWT } from 'jose'
import Provider, { type Configuration, interactionPolicy } from 'oidc-provider'

/** Claims of somebody in the directory. */
export type Person = Record<string, unknown>

interface Client {
  readonly id: string
  readonly secret: string
  readonly returnAddress: string
  readonly signedOutAddress: string
  readonly logoutAddress: string
}

/** What a signed token is changed into before it goes out: header and payload. */
export type Twist = (payload: JWTPayload, header: Record<string, unknown>) => [JWTPayload, Record<string, unknown>]

/** A directory of the test: a real provider, on loopback. */
export interface TestProvider {
  readonly issuer: string
  /** Who can sign in there, by what they type; removed people are gone at once. */
  readonly people: Map<string, Person>
  /** Makes it know a client, in the place of any before. */
  register(client: Client): void
  /** Changes the ID tokens it answers with; they are signed with its own key all the same. */
  twist: Twist | null
  /** Answers with a token made by somebody else in the place of its own. */
  forge: ((payload: JWTPayload, header: Record<string, unknown>) => Promise<string>) | null
  /** Signs anything with its key of now. */
  sign(payload: JWTPayload, header?: Record<string, unknown>): Promise<string>
  /** Throws its keys away and takes new ones. */
  rotateKeys(): Promise<void>
  /** What it answers in the place of its keys, with which status. */
  insteadOfKeys: { readonly status: number; readonly body: string } | null
  /** Answers nothing any more, until it is back. */
  goDown(): Promise<void>
  comeBack(): Promise<void>
  close(): Promise<void>
}

interface Keys {
  readonly privateKey: CryptoKey
  readonly jwk: JWK
}

let made = 0
async function newKeys(): Promise<Keys> {
  const { privateKey } = await generateKeyPair('RS256', { extractable: true })
  return { privateKey, jwk: { ...(await exportJWK(privateKey)), kid: `key-${made++}`, use: 'sig', alg: 'RS256' } }
}

export async function openProvider(): Promise<TestProvider> {
  const people = new Map<string, Person>()
  let keys = await newKeys()
  let client: Client | null = null
  let answer: (request: IncomingMessage, response: ServerResponse) => void = () => {}
  const server = createServer((request, response) => answer(request, response))
  const port = await listen(server, 0)
  const issuer = `http://127.0.0.1:${port}`

  const test: TestProvider = {
    issuer,
    people,
    twist: null,
    forge: null,
    insteadOfKeys: null,
    register(known) {
      client = known
      start()
    },
    sign: (payload, header = {}) => sign(payload, { typ: 'JWT', ...header }, keys),
    async rotateKeys() {
      keys = await newKeys()
      start()
    },
    async goDown() {
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
    },
    async comeBack() {
      await listen(server, port)
    },
    async close() {
      if (server.listening) await test.goDown()
    },
  }

  function start(): void {
    const provider = new Provider(issuer, settings(people, keys, client))
    provider.use(async (context, next) => {
      await next()
      const { id_token: token } = (context.path === '/token' && (context.body as { id_token?: string })) || {}
      if (!token) return
      const header = JSON.parse(Buffer.from(token.split('.')[0]!, 'base64url').toString())
      const [payload, changed] = test.twist?.(decodeJwt(token), header) ?? [decodeJwt(token), header]
      const other = test.forge?.(payload, changed) ?? (test.twist ? sign(payload, changed, keys) : token)
      context.body = { ...(context.body as object), id_token: await other }
    })
    const callback = provider.callback()
    answer = (request, response) => {
      if (request.url === '/jwks' && test.insteadOfKeys !== null) {
        response.writeHead(test.insteadOfKeys.status, { 'content-type': 'application/json' })
        response.end(test.insteadOfKeys.body)
      } else if (request.url?.startsWith('/login/')) void login(provider, people, request, response)
      else void callback(request, response)
    }
  }
  start()
  return test
}

const listen = (server: Server, port: number): Promise<number> =>
  new Promise((resolve) => server.listen(port, '127.0.0.1', () => resolve((server.address() as AddressInfo).port)))

const sign = (payload: JWTPayload, header: Record<string, unknown>, { privateKey, jwk }: Keys): Promise<string> =>
  new SignJWT(payload).setProtectedHeader({ alg: 'RS256', kid: jwk.kid!, ...header }).sign(privateKey)

/** Nobody is asked whether our server may know them, and who is gone is sent to the form again. */
function onlyLogin(people: Map<string, Person>) {
  const { base, Check } = interactionPolicy
  const policy = base()
  policy.remove('consent')
  const isGone = ({ oidc }: { oidc: { session?: { accountId?: string } } }) =>
    oidc.session?.accountId !== undefined && !people.has(oidc.session.accountId)
  policy.get('login')!.checks.add(new Check('gone', 'Not in the directory any more', (context) => isGone(context)))
  return policy
}

function settings(people: Map<string, Person>, { jwk }: Keys, client: Client | null): Configuration {
  return {
    clients: client
      ? [
          {
            client_id: client.id,
            client_secret: client.secret,
            redirect_uris: [client.returnAddress],
            post_logout_redirect_uris: [client.signedOutAddress],
            backchannel_logout_uri: client.logoutAddress,
            backchannel_logout_session_required: true,
          },
        ]
      : [],
    jwks: { keys: [jwk] },
    cookies: { keys: ['only of a test'], short: { sameSite: 'lax' }, long: { sameSite: 'lax' } },
    claims: { openid: ['sub'], profile: ['preferred_username', 'groups', 'rank', 'roster_number'] },
    pkce: { required: () => true },
    ttl: { AccessToken: 600, AuthorizationCode: 60, IdToken: 600, Interaction: 600, Session: 6000, Grant: 6000 },
    features: {
      devInteractions: { enabled: false },
      backchannelLogout: { enabled: true },
      rpInitiatedLogout: {
        enabled: true,
        logoutSource: (context, form) => {
          context.body = page(
            `${form}<button form="op.logoutForm" name="logout" value="yes">Sign out here too</button>`,
          )
        },
      },
    },
    interactions: { policy: onlyLogin(people), url: (_context, { uid }) => `/login/${uid}` },
    findAccount: (_context, id) => {
      const person = people.get(id)
      return person && { accountId: id, claims: async () => ({ sub: id, ...person }) }
    },
    loadExistingGrant: async ({ oidc }) => {
      const grant = new oidc.provider.Grant({ clientId: oidc.client!.clientId, accountId: oidc.session!.accountId! })
      grant.addOIDCScope('openid profile')
      await grant.save()
      return grant
    },
    // Its own guard refuses loopback, where all of a test is.
    fetch: (url, options) => fetch(url, { ...options, dispatcher: undefined } as RequestInit),
  }
}

const page = (body: string): string => `<!doctype html><title>Directory</title><main>${body}</main>`

/** One field, and no password: whoever is in the directory is let in. */
async function login(
  provider: Provider,
  people: Map<string, Person>,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  if (request.method !== 'POST') {
    response.setHeader('content-type', 'text/html')
    response.end(page('<form method="post"><label>Who <input name="who"></label><button>Go on</button></form>'))
    return
  }
  let body = ''
  for await (const part of request) body += part
  const who = new URLSearchParams(body).get('who') ?? ''
  const result = people.has(who)
    ? { login: { accountId: who } }
    : { error: 'access_denied', error_description: 'Not in the directory' }
  await provider.interactionFinished(request, response, result, { mergeWithLastSubmission: false })
}

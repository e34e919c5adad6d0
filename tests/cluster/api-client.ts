import type { Account } from './servers.ts'

/** What came back; status 0: nothing did. */
export interface Answer {
  readonly status: number
  readonly body: unknown
}

/** Longer than the server takes for its last word. */
const ANSWER_MS = 100_000

/** Somebody signed in at one server process. Out: whatever the answer is. */
export type ApiClient = (method: string, path: string, body?: unknown) => Promise<Answer>

/** @throws Error where the server does not let the account in */
export async function signIn(url: string, account: Account): Promise<ApiClient> {
  let cookie = ''
  const client: ApiClient = async (method, path, body) => {
    try {
      const answer = await fetch(`${url}${path}`, {
        method,
        headers: { cookie, ...(body === undefined ? {} : { 'content-type': 'application/json' }) },
        signal: AbortSignal.timeout(ANSWER_MS),
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      })
      const [set] = answer.headers.getSetCookie()
      if (set !== undefined) cookie = set.split(';', 1)[0]!
      const text = await answer.text()
      return { status: answer.status, body: text ? JSON.parse(text) : null }
    } catch {
      return { status: 0, body: null }
    }
  }
  await succeeds(client, 'POST', '/api/session', account)
  return client
}

/** @throws Error unless the answer is one of success */
export async function succeeds<Body>(client: ApiClient, method: string, path: string, body?: unknown): Promise<Body> {
  const answer = await client(method, path, body)
  if (answer.status >= 200 && answer.status < 300) return answer.body as Body
  throw new Error(`${method} ${path}: ${answer.status} ${JSON.stringify(answer.body)}`)
}

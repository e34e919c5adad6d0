import { Pool } from 'undici'

/** Asks one server over connections that stay open. */
export interface HttpCaller {
  /** Out: the body of a 200; throws for any other answer. */
  get(path: string): Promise<string>
  /** Out: the body of a 201; throws for any other answer. */
  put(path: string, body: string): Promise<string>
  post(path: string, body: string): Promise<string>
  close(): Promise<void>
}

/**
 * Opens connections to a server, signed in where it asks for that.
 * In: its address, how many connections, and the account.
 */
export async function openCaller(
  origin: string,
  connections: number,
  account: { name: string; password: string } | null,
): Promise<HttpCaller> {
  const pool = new Pool(origin, { connections, pipelining: 1 })
  let cookie: string | undefined
  const ask = async (method: 'GET' | 'POST' | 'PUT', path: string, expected: number, body?: string) => {
    const headers: Record<string, string> = { ...(body !== undefined && { 'content-type': 'application/json' }) }
    if (cookie !== undefined) headers.cookie = cookie
    const answer = await pool.request({ method, path, headers, body: body ?? null })
    const text = await answer.body.text()
    if (answer.statusCode !== expected) throw new Error(`${method} ${path} answered ${answer.statusCode}: ${text}`)
    return { text, headers: answer.headers }
  }
  if (account) {
    const { headers } = await ask('POST', '/api/session', 200, JSON.stringify(account))
    cookie = [headers['set-cookie']]
      .flat()
      .map((one) => one?.split(';')[0])
      .join('; ')
  }
  return {
    get: async (path) => (await ask('GET', path, 200)).text,
    put: async (path, body) => (await ask('PUT', path, 201, body)).text,
    post: async (path, body) => (await ask('POST', path, 201, body)).text,
    close: () => pool.close(),
  }
}

import type { Server } from 'node:http'
import request from 'supertest'
import { expect } from 'vitest'
import { ERROR_CODES, type ErrorCode, PROBLEM_TYPE_PREFIX } from '../../server/contract/error-codes.ts'
import { Problem } from '../../server/contract/errors.ts'

export type Method = 'GET' | 'POST' | 'PUT' | 'DELETE' | 'PATCH'
type Headers = Record<string, string>

/** What came back; the body as parsed from JSON. */
export interface Answer {
  readonly status: number
  readonly headers: Record<string, string | undefined>
  readonly body: unknown
}

/** Somebody who asks the API, with their own cookies. A text as body is sent as it is, anything else as JSON. */
export interface Client {
  /** Expects 200. */
  get<Body>(path: string): Promise<Body>
  /** Expects 201, unless told otherwise. */
  post<Body = { id: string }>(path: string, body?: unknown, status?: number): Promise<Body>
  put<Body>(path: string, body: unknown, status?: number): Promise<Body>
  /** Sends, whatever the answer may be. */
  tries(method: Method, path: string, body?: unknown, headers?: Headers): Promise<Answer>
  /** Expects to be refused with this status, by a problem as RFC 9457 has it; answers the problem. */
  refused(status: number, method: Method, path: string, body?: unknown, headers?: Headers): Promise<Problem>
}

/** A client that is not signed in. By TLS it takes this certificate for good, as PEM. */
export function createClient(server: Server, ca?: string): Client {
  const agent = request.agent(server, ca === undefined ? {} : { ca })
  async function tries(method: Method, path: string, body?: unknown, headers: Headers = {}): Promise<Answer> {
    const asked = agent[method.toLowerCase() as Lowercase<Method>](path).ok(() => true)
    if (body !== undefined) asked.set('content-type', 'application/json')
    asked.set(headers)
    const {
      status,
      headers: answered,
      text,
    } = await (body === undefined ? asked : asked.send(typeof body === 'string' ? body : JSON.stringify(body)))
    const isJson = /json/.test(answered['content-type'] ?? '')
    return { status, headers: answered, body: isJson && text ? JSON.parse(text) : text }
  }
  async function succeeds<Body>(status: number, method: Method, path: string, body?: unknown): Promise<Body> {
    const answer = await tries(method, path, body)
    if (answer.status !== status) {
      throw new Error(`${method} ${path}: ${answer.status}, not ${status}: ${JSON.stringify(answer.body)}`)
    }
    return answer.body as Body
  }
  return {
    get: (path) => succeeds(200, 'GET', path),
    post: (path, body, status = 201) => succeeds(status, 'POST', path, body),
    put: (path, body, status = 201) => succeeds(status, 'PUT', path, body),
    tries,
    async refused(status, method, path, body, headers) {
      const answer = await tries(method, path, body, headers)
      expect(answer.status, JSON.stringify(answer.body)).toBe(status)
      expect(answer.headers['content-type']).toMatch(/^application\/problem\+json\b/)
      const problem = Problem.strict().parse(answer.body)
      expect(problem.status).toBe(status)
      const code = problem.type.slice(PROBLEM_TYPE_PREFIX.length) as ErrorCode
      expect(problem.type).toBe(PROBLEM_TYPE_PREFIX + code)
      expect(ERROR_CODES[code]?.status, `the statuses listed for ${code}`).toContain(status)
      expect(problem.detail).not.toBe('')
      return problem
    },
  }
}

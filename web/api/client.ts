import type { z } from 'zod'
import { isolated, withoutIsolates } from '#calendar/isolate.ts'
import type { Problem } from '#contract/errors.ts'
import { ApiError, NoAnswerError } from './errors.ts'
import { noteServerTime } from './server-clock.ts'

type Query = Record<string, string | number | undefined | null>

const ATTEMPT_TIMEOUT_MILLISECONDS = 30_000

const address = (path: string, query: Query = {}): string => {
  const set = Object.entries(query).filter(([, value]) => value !== undefined && value !== null && value !== '')
  const search = new URLSearchParams(set.map(([name, value]) => [name, withoutIsolates(String(value))])).toString()
  return search ? `/api${path}?${search}` : `/api${path}`
}

const ask = async (
  method: string,
  url: string,
  body?: unknown,
  headers?: Record<string, string>,
): Promise<Response> => {
  const sentAt = Date.now()
  try {
    const response = await fetch(url, {
      method,
      headers: {
        accept: 'application/json',
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      body: body === undefined ? undefined : withoutIsolates(JSON.stringify(body)),
      signal: AbortSignal.timeout(ATTEMPT_TIMEOUT_MILLISECONDS),
    })
    noteServerTime(response.headers.get('x-server-time'), sentAt, Date.now())
    return response
  } catch (cause) {
    throw new NoAnswerError(cause)
  }
}

const isProblem = (value: unknown): value is Problem =>
  typeof value === 'object' && value !== null && 'type' in value && 'status' in value && 'detail' in value

const problemOf = async (response: Response): Promise<Problem> => {
  const answer: unknown = await response
    .text()
    .then((text) => JSON.parse(isolated(text)))
    .catch(() => null)
  if (isProblem(answer)) return answer
  const { status, statusText } = response
  return { type: 'about:blank', title: statusText || 'Error', status, detail: '' }
}

const read = async <Schema extends z.ZodType>(response: Response): Promise<z.infer<Schema>> => {
  if (!response.ok) throw new ApiError(await problemOf(response))
  try {
    // Names in right-to-left scripts are isolated here, once for every page, sentence, option and print.
    return JSON.parse(isolated(await response.text())) as z.infer<Schema>
  } catch (cause) {
    throw new Error('The server’s answer was not understood. Load the page again to get the version that fits it.', {
      cause,
    })
  }
}

/**
 * GET: the answer, of the type of a schema of the contract: `get<typeof Readiness>('/readiness')`. The server writes its
 * answers by the same schema, so the page takes only the type and does not carry schemas in its first load.
 * Throws `ApiError` for a refusal, `NoAnswerError` when nothing came back.
 */
export const get = async <Schema extends z.ZodType = z.ZodUnknown>(
  path: string,
  query?: Query,
): Promise<z.infer<Schema>> => read<Schema>(await ask('GET', address(path, query)))

/** POST or PUT of a JSON body; the answer as the schema has it. Throws as `get` does. */
export const send = async <Schema extends z.ZodType = z.ZodUnknown>(
  method: 'POST' | 'PUT' | 'PATCH',
  path: string,
  body: unknown,
  headers?: Record<string, string>,
): Promise<z.infer<Schema>> => read<Schema>(await ask(method, address(path), body, headers))

const UPLOAD_TIMEOUT_MILLISECONDS = 300_000

/** POST of a file as it is. Its name travels in a header: it may hold names of people. Throws as `get` does. */
export const upload = async <Schema extends z.ZodType = z.ZodUnknown>(
  path: string,
  file: File,
  query?: Query,
): Promise<z.infer<Schema>> => {
  const headers = { 'content-type': 'application/octet-stream', 'x-file-name': encodeURIComponent(file.name) }
  try {
    const signal = AbortSignal.timeout(UPLOAD_TIMEOUT_MILLISECONDS)
    return await read<Schema>(await fetch(address(path, query), { method: 'POST', headers, body: file, signal }))
  } catch (cause) {
    throw cause instanceof ApiError ? cause : new NoAnswerError(cause)
  }
}

/** GET of a file; the browser keeps it by the name the server gives it. */
export const fileAddress = (path: string, query?: Query): string => address(path, query)

/** DELETE; nothing comes back. */
export const remove = async (path: string): Promise<void> => {
  const response = await ask('DELETE', address(path))
  if (!response.ok) throw new ApiError(await problemOf(response))
}

import type { z } from 'zod'
import { PROBLEM_TYPE_PREFIX, Problem } from '#contract/errors.ts'
import { ApiError, NoAnswerError } from './errors.ts'

type Query = Record<string, string | number | undefined | null>

const ATTEMPT_TIMEOUT_MILLISECONDS = 30_000

const address = (path: string, query: Query = {}): string => {
  const set = Object.entries(query).filter(([, value]) => value !== undefined && value !== null && value !== '')
  const search = new URLSearchParams(set.map(([name, value]) => [name, String(value)])).toString()
  return search ? `/api${path}?${search}` : `/api${path}`
}

const ask = async (
  method: string,
  url: string,
  body?: unknown,
  headers?: Record<string, string>,
): Promise<Response> => {
  try {
    return await fetch(url, {
      method,
      headers: {
        accept: 'application/json',
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      body: body === undefined ? undefined : JSON.stringify(body),
      signal: AbortSignal.timeout(ATTEMPT_TIMEOUT_MILLISECONDS),
    })
  } catch (cause) {
    throw new NoAnswerError(cause)
  }
}

const problemOf = async (response: Response): Promise<Problem> => {
  const parsed = Problem.safeParse(await response.json().catch(() => null))
  if (parsed.success) return parsed.data
  const { status, statusText } = response
  return { type: `${PROBLEM_TYPE_PREFIX}unknown`, title: statusText || 'Error', status, detail: '' }
}

const read = async <Schema extends z.ZodType>(response: Response, schema: Schema): Promise<z.infer<Schema>> => {
  if (!response.ok) throw new ApiError(await problemOf(response))
  const parsed = schema.safeParse(await response.json().catch(() => undefined))
  if (parsed.success) return parsed.data
  throw new Error('The server’s answer was not understood. Load the page again to get the version that fits it.', {
    cause: parsed.error,
  })
}

/** GET: the answer as the contract's schema reads it. Throws `ApiError` for a refusal, `NoAnswerError` when nothing came back. */
export const get = async <Schema extends z.ZodType>(
  schema: Schema,
  path: string,
  query?: Query,
): Promise<z.infer<Schema>> => read(await ask('GET', address(path, query)), schema)

/** POST or PUT of a JSON body; the answer as the schema reads it. Throws as `get` does. */
export const send = async <Schema extends z.ZodType>(
  schema: Schema,
  method: 'POST' | 'PUT',
  path: string,
  body: unknown,
  headers?: Record<string, string>,
): Promise<z.infer<Schema>> => read(await ask(method, address(path), body, headers), schema)

/** DELETE; nothing comes back. */
export const remove = async (path: string): Promise<void> => {
  const response = await ask('DELETE', address(path))
  if (!response.ok) throw new ApiError(await problemOf(response))
}

import { isolated, withoutIsolates } from '#calendar/isolate.ts'
import type { Answer, Endpoint, Input, Optional, Schemas } from '#contract/endpoint.ts'
import type { Problem } from '#contract/errors.ts'
import { fillIn, type Parts } from './address-of.ts'
import { ApiError, NoAnswerError } from './errors.ts'
import { isConfirmedNow } from './identity.ts'
import { noteServerTime } from './server-clock.ts'

const ATTEMPT_TIMEOUT_MILLISECONDS = 30_000

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

/** Sends; and sends the same once more where whoever sits here had to show first who they are. */
const askKnown: typeof ask = async (...request) => {
  const response = await ask(...request)
  return (await isConfirmedNow(response)) ? ask(...request) : response
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

const read = async <Of extends Schemas>(response: Response): Promise<Answer<Of>> => {
  if (!response.ok) throw new ApiError(await problemOf(response))
  if (response.status === 204) return undefined as Answer<Of>
  try {
    // Names in right-to-left scripts are isolated here, once for every page, sentence, option and print.
    return JSON.parse(isolated(await response.text())) as Answer<Of>
  } catch (cause) {
    throw new Error('The server’s answer was not understood. Load the page again to get the version that fits it.', {
      cause,
    })
  }
}

interface Sent extends Parts {
  readonly body?: unknown
  readonly headers?: Record<string, string>
}

/** What an operation is called with. */
export type Asked<Of extends Schemas> = Optional<Input<Of> & Pick<Sent, 'headers'>>

/**
 * Calls an operation of the API: `call(getSoldier, { params: { id } })`. Out: its answer; nothing where it has none. The
 * server writes its answers by the schema the endpoint names, so the page takes only the type and carries no schemas.
 * Throws `ApiError` for a refusal, `NoAnswerError` when nothing came back.
 */
export const call = async <Of extends Schemas>(endpoint: Endpoint<Of>, ...[input]: Asked<Of>): Promise<Answer<Of>> => {
  const { body, headers, ...parts }: Sent = input ?? {}
  const [method] = endpoint.split(' ', 1) as [string]
  return read(await askKnown(method, fillIn(endpoint, parts), body, headers))
}

const UPLOAD_TIMEOUT_MILLISECONDS = 300_000

/** Sends a file as it is. Its name travels in a header: it may hold names of people. Throws as `call` does. */
export const upload = async <Of extends Schemas>(
  endpoint: Endpoint<Of>,
  file: File,
  ...[input]: Optional<Input<Of>>
): Promise<Answer<Of>> => {
  const headers = { 'content-type': 'application/octet-stream', 'x-file-name': encodeURIComponent(file.name) }
  try {
    const signal = AbortSignal.timeout(UPLOAD_TIMEOUT_MILLISECONDS)
    return await read(await fetch(fillIn(endpoint, input ?? {}), { method: 'POST', headers, body: file, signal }))
  } catch (cause) {
    throw cause instanceof ApiError ? cause : new NoAnswerError(cause)
  }
}

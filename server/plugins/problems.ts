import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { hasZodFastifySchemaValidationErrors, type ZodFastifySchemaValidationError } from 'fastify-type-provider-zod'
import { type ErrorCode, PROBLEM_TYPE_PREFIX } from '../contract/error-codes.ts'
import type { Problem, ProblemItem } from '../contract/errors.ts'
import { isQueryTimeout, isUnreachable } from '../db/database-errors.ts'
import { AppError, DatabaseUnavailable, type ErrorKind, TooManyRequests } from '../errors.ts'

/** After so many seconds it is worth trying again what is not available just now. */
const RETRY_SECONDS = 5

/** The HTTP status of each kind of failure; the only place that knows. */
const STATUS: Record<ErrorKind, number> = {
  'malformed-request': 400,
  'not-signed-in': 401,
  'not-allowed': 403,
  'not-found': 404,
  conflict: 409,
  'wrong-media-type': 415,
  invalid: 422,
  'too-many-requests': 429,
  unavailable: 503,
}

const TITLES: Record<number, string> = {
  400: 'The request cannot be read',
  401: 'Not signed in',
  403: 'Not allowed',
  404: 'Not found',
  405: 'Not allowed here',
  409: 'Clashes with what is stored',
  413: 'Too large',
  415: 'Wrong media type',
  422: 'The content is not valid',
  429: 'Too many requests',
  500: 'Something went wrong here',
  503: 'Not available just now',
}

/** Makes every failure an RFC 9457 problem; what we did not expect is logged and answered without its inside. */
export function registerProblems(app: FastifyInstance): void {
  app.setErrorHandler(answerProblem)
  app.setNotFoundHandler((request, reply) =>
    sendProblem(
      reply,
      problem(404, 'no-such-address', `Nothing answers ${request.method} here; see /api/openapi.json.`),
    ),
  )
}

/** Answers an error with its problem; also those that Fastify finds before there is a route. */
export function answerProblem(error: FastifyError, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const found = toProblem(error, request)
  if (error instanceof TooManyRequests) reply.header('retry-after', error.retryAfterSeconds)
  else if (found.status === 503) reply.header('retry-after', RETRY_SECONDS)
  return sendProblem(reply, found)
}

function toProblem(error: FastifyError, request: FastifyRequest): Problem {
  if (error instanceof AppError) {
    noteRefusal(error, request)
    return problem(STATUS[error.kind], error.rule, error.message, [...error.items])
  }
  if (hasZodFastifySchemaValidationErrors(error)) return validationProblem(error.validationContext, error.validation)
  if (isUnreachable(error)) {
    request.log.error({ err: error }, 'The database does not answer')
    const { rule, message } = new DatabaseUnavailable()
    return problem(503, rule, message)
  }
  if (error.code === 'FST_ERR_HANDLER_TIMEOUT' || isQueryTimeout(error)) {
    request.log.error({ err: error }, 'A request took too long')
    return problem(
      503,
      'took-too-long',
      'This took longer than the server may spend on it. Ask for less, or try later.',
    )
  }
  const status = error.statusCode ?? 500
  if (status < 500) return problem(status, ...plain(error, status))
  request.log.error({ err: error }, 'A request failed')
  return problem(500, 'unexpected', `Nothing was stored. If it happens again, report request ${request.id}.`)
}

/** Who tried what they may not, by account; what they sent is not kept. */
function noteRefusal({ kind, rule }: AppError, { log, method, routeOptions, signedIn }: FastifyRequest): void {
  const what = { rule, account: signedIn?.accountId, route: `${method} ${routeOptions.url}` }
  if (kind === 'not-allowed') log.warn(what, `Refused: ${rule}`)
  if (kind === 'too-many-requests') log.info(what, `Made to wait: ${rule}`)
}

/** Failures that Fastify itself finds in a request. */
function plain(error: FastifyError, status: number): [rule: ErrorCode, detail: string] {
  switch (error.code) {
    case 'FST_ERR_CTP_INVALID_MEDIA_TYPE':
      return ['media-type', 'Send the body as application/json.']
    case 'FST_ERR_CTP_BODY_TOO_LARGE':
      return ['body-too-large', 'The body is larger than 1 MiB; no sheet needs that much. Send one thing a request.']
    case 'FST_ERR_CTP_EMPTY_JSON_BODY':
      return ['body-missing', 'The body is empty; send JSON.']
    default:
      return status === 400 ? ['malformed-json', `The body is not JSON: ${error.message}`] : ['refused', error.message]
  }
}

/** What zod calls an issue, and what we call the rule. */
const RULES: Record<string, ErrorCode> = {
  invalid_type: 'wrong-type',
  invalid_value: 'not-an-allowed-value',
  invalid_format: 'wrong-format',
  unrecognized_keys: 'unknown-field',
  too_big: 'too-large',
  too_small: 'too-small',
  invalid_union: 'wrong-type',
}

function validationProblem(
  context: string | undefined,
  validation: readonly ZodFastifySchemaValidationError[],
): Problem {
  const inBody = context === 'body' || context === undefined
  const items = validation.flatMap(itemsOf).map((item) => (inBody ? item : { ...item, pointer: item.pointer.slice(1) }))
  const first: ProblemItem = items[0] ?? { pointer: '', rule: 'not-allowed', detail: 'The request is not valid.' }
  const where = first.pointer === '' ? (inBody ? 'the body' : `the ${context}`) : first.pointer
  const more = items.length > 1 ? ` (and ${items.length - 1} more)` : ''
  return problem(inBody ? 422 : 400, first.rule, `At ${where}: ${first.detail}${more}`, items)
}

/** What an issue of zod says: unknown fields each at their own place, all else at the place zod names. */
function itemsOf({ keyword, instancePath, params, message }: ZodFastifySchemaValidationError): ProblemItem[] {
  const pointer = instancePath === '/' ? '' : instancePath
  const rule = RULES[keyword] ?? 'not-allowed'
  if (keyword !== 'unrecognized_keys') return [{ pointer, rule, detail: message ?? 'This is not allowed here.' }]
  return (params.keys as string[]).map((key) => ({
    pointer: `${pointer}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`,
    rule,
    detail: `There is no field ${JSON.stringify(key)} here; leave it out.`,
  }))
}

function problem(status: number, rule: ErrorCode, detail: string, errors?: ProblemItem[]): Problem {
  const title = TITLES[status] ?? 'The request was refused'
  return { type: PROBLEM_TYPE_PREFIX + rule, title, status, detail, ...(errors?.length ? { errors } : {}) }
}

function sendProblem(reply: FastifyReply, body: Problem): FastifyReply {
  return reply.code(body.status).type('application/problem+json').serializer(JSON.stringify).send(body)
}

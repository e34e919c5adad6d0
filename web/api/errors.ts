import { type ErrorCode, PROBLEM_TYPE_PREFIX } from '#contract/error-codes.ts'
import type { Problem, ProblemItem } from '#contract/errors.ts'

const MEANING: Record<number, string> = {
  401: 'You are signed out. Sign in again; what you entered is kept.',
  403: 'Your account may not do this. Ask the training office.',
  404: 'This does not exist, or your account may not see it.',
  409: 'This has been changed or decided in the meantime. Load the page again to see how it stands.',
  413: 'This is more than the server accepts at once.',
  429: 'Too many tries in a short time. Wait a minute, then try again.',
}

const say = ({ status, detail }: Problem): string => {
  if (detail) return detail
  return (
    MEANING[status] ??
    (status >= 500
      ? 'Something failed on the server. Try again; if it keeps failing, tell the administrator.'
      : 'The server refused this.')
  )
}

/** A refusal by the server; the message is fit to be shown. */
export class ApiError extends Error {
  readonly status: number
  readonly problem: Problem

  constructor(problem: Problem) {
    super(say(problem))
    this.name = 'ApiError'
    this.status = problem.status
    this.problem = problem
  }

  /** Whether this is what went wrong. */
  is(code: ErrorCode): boolean {
    return this.problem.type === PROBLEM_TYPE_PREFIX + code
  }

  /** What is wrong with single fields, by JSON pointer. */
  get items(): readonly ProblemItem[] {
    return this.problem.errors ?? []
  }
}

/** No answer: no network, the server is down, or it took too long. Nothing is known about what happened to the request. */
export class NoAnswerError extends Error {
  constructor(cause: unknown) {
    super('The server does not answer. Check the network, then try again; nothing you entered is lost.', { cause })
    this.name = 'NoAnswerError'
  }
}

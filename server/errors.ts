import type { ErrorCode } from './contract/error-codes.ts'
/** One place in a request that is wrong: JSON pointer (or parameter), the rule it breaks, and what to do. */
export interface ErrorItem {
  readonly pointer: string
  readonly rule: ErrorCode
  readonly detail: string
}

/** What stands in the way of something, and what to do about it. */
export type Obstacle = Omit<ErrorItem, 'pointer'>

/** Everything a request of ours can come to other than success; `plugins/errors.ts` gives each its HTTP status. */
export type ErrorKind =
  | 'malformed-request'
  | 'invalid'
  | 'not-signed-in'
  | 'not-allowed'
  | 'not-found'
  | 'conflict'
  | 'wrong-media-type'
  | 'too-many-requests'
  | 'unavailable'

/**
 * An expected failure. `rule` names what was broken and reaches the client in the problem's type; the message is for the
 * user and says what to do.
 */
export class AppError extends Error {
  readonly kind: ErrorKind
  readonly rule: ErrorCode
  readonly items: readonly ErrorItem[]

  constructor(kind: ErrorKind, rule: ErrorCode, message: string, items: readonly ErrorItem[] = []) {
    super(message)
    this.name = 'AppError'
    this.kind = kind
    this.rule = rule
    this.items = items
  }
}

/** What was asked for is not there, or not for this person: the two are never told apart. */
export const notFound = (what: string): AppError =>
  new AppError('not-found', 'not-found', `There is no such ${what}; look it up again, it may never have been stored.`)

/** A body that is well-formed JSON but says something that cannot be. */
export const invalid = (rule: ErrorCode, pointer: string, detail: string): AppError =>
  new AppError('invalid', rule, detail, [{ pointer, rule, detail }])

/** Clashes with what is stored. */
export const conflict = (rule: ErrorCode, detail: string): AppError => new AppError('conflict', rule, detail)

/** The database does not answer, or went away meanwhile. */
export class DatabaseUnavailable extends AppError {
  constructor() {
    super(
      'unavailable',
      'database-unavailable',
      'The database does not answer. Try again in a moment, and look first whether what you sent was stored.',
    )
  }
}

/** Asked too often. In: after how many seconds it may be asked again. */
export class TooManyRequests extends AppError {
  readonly retryAfterSeconds: number

  constructor(rule: ErrorCode, message: string, retryAfterSeconds: number) {
    super('too-many-requests', rule, message)
    this.retryAfterSeconds = retryAfterSeconds
  }
}

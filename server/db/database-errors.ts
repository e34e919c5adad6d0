import { Prisma } from './generated/client.ts'
import { DatabaseReadOnly } from './read-only.ts'
import { DatabaseSilent } from './watched-pool.ts'

const SERIALIZATION_FAILURE = '40001'
const DEADLOCK = '40P01'
const UNIQUE_VIOLATION = '23505'
const DISK_FULL = '53100'
const EXCLUSION_VIOLATION = '23P01'
const FOREIGN_KEY_VIOLATION = '23503'
const LOCK_NOT_AVAILABLE = '55P03'
const QUERY_CANCELED = '57014'
/** So far errors lie behind one another. */
const DEEPEST = 6
/** Keys that two requests may make at the same moment; the second finds the first's row when it tries again. */
const RACING_KEYS = ['sheet_pkey', 'tally_', 'sheet_revision_pkey']

interface DriverCause {
  readonly originalCode?: string
  readonly originalMessage?: string
}

/** What PostgreSQL said of an error that came through Prisma; empty for any other error. */
function driverCause(error: unknown): DriverCause {
  if (!(error instanceof Prisma.PrismaClientKnownRequestError)) return {}
  const driverError = error.meta?.driverAdapterError as { readonly cause?: DriverCause } | undefined
  return driverError?.cause ?? {}
}

/**
 * Two transactions got in each other's way; trying again helps. So it does where what is named went meanwhile, as with a
 * merge: the second time it is found missing and said so.
 */
export function isConflict(error: unknown): boolean {
  const { originalCode, originalMessage = '' } = driverCause(error)
  if (originalCode === DEADLOCK || originalCode === SERIALIZATION_FAILURE) return true
  if (originalCode === FOREIGN_KEY_VIOLATION) return true
  return originalCode === UNIQUE_VIOLATION && RACING_KEYS.some((key) => originalMessage.includes(`"${key}`))
}

/** A lock was not to be had in the time set for it. */
export const isLockTimeout = (error: unknown): boolean => driverCause(error).originalCode === LOCK_NOT_AVAILABLE

/** A row like it is there already. */
export const isDuplicate = (error: unknown): boolean => driverCause(error).originalCode === UNIQUE_VIOLATION

/** No room is left where PostgreSQL keeps its files. */
export const isOutOfSpace = (error: unknown): boolean =>
  driverCause(error).originalCode === DISK_FULL ||
  /No space left on device/.test(driverCause(error).originalMessage ?? '')

/** A period overlaps one that is there already. */
export const isOverlap = (error: unknown): boolean => driverCause(error).originalCode === EXCLUSION_VIOLATION

/** What the driver and its pool say without a code. */
const SAID_WITHOUT_CODE = [
  /^Connection terminated/,
  /^timeout exceeded when trying to connect/,
  /^timeout expired/,
  /^Query read timeout/,
  /is not queryable/,
  /^Cannot use a pool after calling end/,
]
/** Of Prisma: not reached, not in time, closed, none free in the pool, transaction not begun or gone. */
const PRISMA_CODES = ['P1001', 'P1002', 'P1008', 'P1017', 'P2024', 'P2028']
const DRIVER_KINDS = [
  'DatabaseNotReachable',
  'ConnectionClosed',
  'SocketTimeout',
  'TooManyConnections',
  'TlsConnectionError',
]
const SYSTEM_CODES = ['ECONNREFUSED', 'ECONNRESET', 'ECONNABORTED', 'EPIPE', 'ETIMEDOUT', 'ENOTFOUND', 'EAI_AGAIN']
const NO_WAY_THERE = ['EHOSTUNREACH', 'ENETUNREACH', 'EHOSTDOWN', 'ENETDOWN']
/**
 * SQLSTATE (PostgreSQL 17, appendix A): connection exceptions, too many connections, stopped, crashed or not yet
 * started, a session ended for being idle in a transaction, and a write where nothing is written: at a standby, such as a
 * primary becomes that another one has followed.
 */
const STATES = /^(08\w{3}|53300|57P0[1-5]|25P03|25006)$/

/** The database could not be asked, or went away meanwhile: no connection, none free in time, or no answer. */
export function isUnreachable(error: unknown): boolean {
  const is = [Prisma.PrismaClientInitializationError, DatabaseSilent, DatabaseReadOnly]
  if (is.some((kind) => error instanceof kind)) return true
  return causesOf(error).some(({ code, originalCode, kind, message }) => {
    const codes = [code, originalCode].filter((one) => typeof one === 'string')
    if (codes.some((one) => [...PRISMA_CODES, ...SYSTEM_CODES, ...NO_WAY_THERE].includes(one) || STATES.test(one)))
      return true
    if (DRIVER_KINDS.includes(String(kind))) return true
    return typeof message === 'string' && SAID_WITHOUT_CODE.some((said) => said.test(message))
  })
}

/** A question took longer than a question may. */
export const isQueryTimeout = (error: unknown): boolean =>
  causesOf(error).some(({ code, originalCode }) => [code, originalCode].includes(QUERY_CANCELED))

interface Said {
  readonly code?: unknown
  readonly originalCode?: unknown
  readonly kind?: unknown
  readonly message?: unknown
}

/** An error and all that lies behind it: Prisma, its adapter and the driver each wrap what the next one says. */
function causesOf(error: unknown, depth = 0): Said[] {
  if (typeof error !== 'object' || error === null || depth > DEEPEST) return []
  const { cause, meta, errors } = error as {
    cause?: unknown
    meta?: { driverAdapterError?: unknown }
    errors?: unknown
  }
  const behind = [cause, meta?.driverAdapterError, ...(Array.isArray(errors) ? errors : [])]
  return [error as Said, ...behind.flatMap((one) => causesOf(one, depth + 1))]
}

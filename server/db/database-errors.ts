import { Prisma } from './generated/client.ts'

const SERIALIZATION_FAILURE = '40001'
const DEADLOCK = '40P01'
const UNIQUE_VIOLATION = '23505'
const DISK_FULL = '53100'
const EXCLUSION_VIOLATION = '23P01'
const FOREIGN_KEY_VIOLATION = '23503'
const LOCK_NOT_AVAILABLE = '55P03'
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

/** What the pool says, without a code. */
const NO_CONNECTION_FREE = 'timeout exceeded when trying to connect'
const UNREACHABLE = ['P1001', 'P1002', 'P1008', 'P1017', 'P2024', 'P2028']

/** The database could not be asked: no connection, or none free in time. */
export function isUnreachable(error: unknown): boolean {
  if (error instanceof Prisma.PrismaClientInitializationError) return true
  if (error instanceof Prisma.PrismaClientKnownRequestError && UNREACHABLE.includes(error.code)) return true
  if (error instanceof Error && error.message === NO_CONNECTION_FREE) return true
  const code = (error as { code?: unknown } | null)?.code
  return code === 'ECONNREFUSED' || code === 'ECONNRESET' || /^57P0|^08/.test(driverCause(error).originalCode ?? '')
}

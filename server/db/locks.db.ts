import { setTimeout } from 'node:timers/promises'
import { AppError } from '../errors.ts'
import type { Transaction } from './client.ts'
import { isLockTimeout } from './database-errors.ts'
import { Prisma } from './generated/client.ts'

/** Key of the advisory lock that stands for standards and certifications. */
const CATALOGUE_LOCK = 7_300_001

/** SQL of a call that shares the catalogue until the end of the transaction. */
export const sharingCatalogue = Prisma.sql`pg_advisory_xact_lock_shared(${CATALOGUE_LOCK}::bigint)`

/** While a sheet is judged no standard or certification changes; many sheets may be judged at once. */
export async function shareCatalogue(tx: Transaction): Promise<void> {
  await tx.$executeRaw`SELECT ${sharingCatalogue}`
}

/** Sheets that come while one queues for the lock wait with it, so it queues for a moment only, and then lets them by. */
const QUEUE = "'2s'"
const PAUSE_MS = 300
const TRIES = 12

/**
 * While standards or certifications change no sheet is judged. Throws an AppError where something that takes long, like
 * storing a large file, holds it for half a minute.
 */
export async function lockCatalogue(tx: Transaction): Promise<void> {
  for (let tries = 1; ; tries += 1) {
    await tx.$executeRaw`SAVEPOINT queueing`
    try {
      await tx.$executeRaw`SET LOCAL lock_timeout = ${Prisma.raw(QUEUE)}`
      await tx.$executeRaw`SELECT pg_advisory_xact_lock(${CATALOGUE_LOCK}::bigint)`
      await tx.$executeRaw`SET LOCAL lock_timeout = 0`
      await tx.$executeRaw`RELEASE SAVEPOINT queueing`
      return
    } catch (error) {
      if (!isLockTimeout(error)) throw error
      await tx.$executeRaw`ROLLBACK TO SAVEPOINT queueing`
      if (tries === TRIES) throw new AppError('unavailable', 'busy', BUSY)
      await setTimeout(PAUSE_MS)
    }
  }
}

const BUSY = 'Something that takes long is being stored, like a large file. Nothing was changed; try again in a minute.'

/** Until the end of the transaction nobody else judges these soldiers' sheets. Out: the ids that exist. */
export async function lockSoldiers(tx: Transaction, ids: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM soldier WHERE id = ANY(${[...ids]}::uuid[]) ORDER BY id FOR NO KEY UPDATE`
  return rows.map(({ id }) => id)
}

/** Until the end of the transaction these soldiers' records stay as they are. Out: the ids that exist. */
export async function shareSoldiers(tx: Transaction, ids: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM soldier WHERE id = ANY(${[...ids]}::uuid[]) ORDER BY id FOR SHARE`
  return rows.map(({ id }) => id)
}

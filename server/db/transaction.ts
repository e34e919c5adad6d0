import type { Database, Transaction } from './client.ts'
import { isConflict } from './database-errors.ts'
import { lockCatalogue } from './locks.db.ts'

const ATTEMPTS = 5
const WAIT_FOR_CONNECTION_MS = 20_000
const LONGEST_MS = 120_000

/**
 * Runs work in one transaction: all of it is stored or nothing. Where it collides with another transaction (deadlock,
 * or both making the same row) it is run again from the start, a few times; so work must not act outside the database.
 * From the second time on no judgement runs beside it, so that it cannot collide with one again.
 */
export async function inTransaction<Result>(
  db: Database,
  work: (tx: Transaction) => Promise<Result>,
  longestMs: number = LONGEST_MS,
): Promise<Result> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      return await db.$transaction(
        async (tx) => {
          if (attempt > 1) await lockCatalogue(tx)
          return work(tx)
        },
        { maxWait: WAIT_FOR_CONNECTION_MS, timeout: longestMs },
      )
    } catch (error) {
      if (attempt === ATTEMPTS || !isConflict(error)) throw error
    }
  }
}

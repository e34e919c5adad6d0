import { closeDatabase, type Database, openDatabase, type Transaction } from '../../../server/db/client.ts'
import { checkNotCounted } from './check-not-counted.ts'
import { checkReadiness } from './check-readiness.ts'
import { checkSoldier } from './check-soldier.ts'
import { checkTallies } from './check-tallies.ts'

/** Spread over the roster so that every role is among them. */
const SOLDIERS = 12
const LONGEST_MS = 120_000

/**
 * Checks a filled database against the product itself, and leaves it as it is. Throws an Error that says where the
 * generator and the product have parted.
 */
export async function checkRecord(url: string): Promise<void> {
  const db = openDatabase(url)
  try {
    for (const id of await sample(db)) await inVain(db, (tx) => checkSoldier(tx, id))
    await inVain(db, checkTallies)
    await inVain(db, checkReadiness)
    await inVain(db, checkNotCounted)
  } finally {
    await closeDatabase(db)
  }
}

async function sample(db: Database): Promise<string[]> {
  const rows = await db.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM (SELECT id, row_number() OVER (ORDER BY roster_number) AS place, count(*) OVER () AS n FROM soldier) s
    WHERE (place - 1) % greatest(n / ${SOLDIERS} - 1, 1) = 0`
  return rows.map(({ id }) => id)
}

class Undo extends Error {}

/** Works in a transaction that is rolled back. */
async function inVain(db: Database, work: (tx: Transaction) => Promise<void>): Promise<void> {
  const whole = async (tx: Transaction) => {
    await work(tx)
    throw new Undo()
  }
  await db.$transaction(whole, { timeout: LONGEST_MS }).catch((error: unknown) => {
    if (!(error instanceof Undo)) throw error
  })
}

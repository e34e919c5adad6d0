import type { Context } from '../../context/context.ts'
import type { Transaction } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'
import { appendToRecord, type RecordAuthor, type RecordEntry } from '../db/record.db.ts'

/** Notes a change for the record of the running transaction. */
export type Note = (entry: RecordEntry) => void

/**
 * Runs work that changes something in one transaction, and appends what it noted to the record at the end of the same
 * transaction: a change without its entry, or an entry without its change, cannot be. `actor` null: nobody is signed in.
 */
export async function recorded<Result>(
  context: Pick<Context, 'db' | 'clock'>,
  actor: RecordAuthor | null,
  work: (tx: Transaction, note: Note) => Promise<Result>,
): Promise<Result> {
  return inTransaction(context.db, async (tx) => {
    const entries: RecordEntry[] = []
    const result = await work(tx, (entry) => entries.push(entry))
    const author = { accountId: actor?.accountId ?? null, name: actor?.name ?? null, address: actor?.address ?? null }
    await appendToRecord(tx, author, context.clock(), entries)
    return result
  })
}

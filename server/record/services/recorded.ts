import type { Context } from '../../context/context.ts'
import type { Transaction } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'
import { appendToRecord, type RecordAuthor, type RecordEntry } from '../db/record.db.ts'

/** Who makes a change: an account and the soldier it belongs to, where it belongs to one. */
export type Author = RecordAuthor & { readonly soldierId: string | null }

/** Notes a change for the record of the running transaction. It knows whose change it is, so that nobody judges their own case. */
export interface Note {
  (entry: RecordEntry): void
  readonly soldierId: string | null
}

/** Notes what somebody changes; `keep` hears each entry. */
export const noteFor = (author: Author | null, keep: (entry: RecordEntry) => void): Note =>
  Object.assign((entry: RecordEntry) => keep(entry), { soldierId: author?.soldierId ?? null })

/**
 * Runs work that changes something in one transaction, and appends what it noted to the record at the end of the same
 * transaction: a change without its entry, or an entry without its change, cannot be. `actor` null: nobody is signed in.
 */
export async function recorded<Result>(
  context: Pick<Context, 'db' | 'clock'>,
  actor: Author | null,
  work: (tx: Transaction, note: Note) => Promise<Result>,
): Promise<Result> {
  return inTransaction(context.db, async (tx) => {
    const entries: RecordEntry[] = []
    const result = await work(
      tx,
      noteFor(actor, (entry) => entries.push(entry)),
    )
    const author = { accountId: actor?.accountId ?? null, name: actor?.name ?? null, address: actor?.address ?? null }
    await appendToRecord(tx, author, context.clock(), entries)
    return result
  })
}

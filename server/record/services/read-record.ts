import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { RecordItem, RecordVerification } from '../../contract/record/record.ts'
import type { Database } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { judgeChain } from '../../domain/record/judge-chain.ts'
import { listRecord, type RecordFilter, readChain } from '../db/record.db.ts'

/** Searches the record, latest first. */
export async function findRecord(
  context: Context,
  actor: Actor,
  query: RecordFilter & { limit: number; after?: string | undefined },
): Promise<{ items: RecordItem[]; next: string | null }> {
  requireAction(actor, 'read-record')
  const key = fromCursor(query.after, ['number'])
  const rows = await listRecord(context.db, query, { limit: query.limit + 1, after: key && Math.trunc(Number(key[0])) })
  return toPage(
    rows,
    query.limit,
    ({ seq }) => [seq],
    (item) => item,
  )
}

/** Walks the whole record and says whether it is as it was written. */
export async function verifyRecord(context: Context, actor: Actor): Promise<RecordVerification> {
  requireAction(actor, 'read-record')
  return checkRecord(context.db)
}

/** The same without an account, for the command at the machine itself. */
export async function checkRecord(db: Database): Promise<RecordVerification> {
  const chain = await readChain(db)
  const problems = judgeChain(chain)
  return { whole: problems.length === 0, entries: chain.entries, lastHash: chain.headHash, problems }
}

import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { RecordItem, RecordVerification } from '../../contract/record/record.ts'
import type { Database } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { judgeChain } from '../../domain/record/judge-chain.ts'
import { listRecord, type RecordFilter, readChain } from '../db/record.db.ts'

/** Beginnings of actions whose content says how a soldier does: results, decisions about them, and what was written of them. */
const ABOUT_RESULTS = [
  'sheet',
  'award',
  'suspension',
  'withdrawal',
  'review',
  'retest',
  'certificate',
  'coaching-note',
  'practice',
  'absence',
]

const tellsResults = ({ action }: RecordItem): boolean => ABOUT_RESULTS.includes(action.split('.')[0]!)

/** That something was done, by whom, when and from where; not what it says of a soldier, such as how a test went. */
const withoutContent = (item: RecordItem): RecordItem => ({ ...item, before: null, after: null, reason: null })

/**
 * Searches the record, latest first. Who keeps the server has no part in tests: of results they read that something was
 * done, not what it says; who is of the office as well reads all.
 */
export async function findRecord(
  context: Context,
  actor: Actor,
  query: RecordFilter & { limit: number; after?: string | undefined },
): Promise<{ items: RecordItem[]; next: string | null }> {
  requireAction(actor, 'read-record')
  const isOffice = actor.roles.includes('office')
  const key = fromCursor(query.after, ['number'])
  const rows = await listRecord(context.db, query, { limit: query.limit + 1, after: key && Math.trunc(Number(key[0])) })
  return toPage(
    rows,
    query.limit,
    ({ seq }) => [seq],
    (item) => (tellsResults(item) && !isOffice ? withoutContent(item) : item),
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

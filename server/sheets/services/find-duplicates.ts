import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { PossibleDuplicate } from '../../contract/sheets/duplicates.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listPossibleDuplicates } from '../db/duplicates.db.ts'

/** Pairs of sheets that may be of one test, latest first: the office says by an amendment which of the two stands. */
export async function findDuplicates(
  context: Context,
  actor: Actor,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: PossibleDuplicate[]; next: string | null }> {
  requireAction(actor, 'amend-sheets')
  const key = fromCursor(query.after, ['day', 'uuid', 'uuid'])
  const after = key && { day: String(key[0]), laterId: String(key[1]), earlierId: String(key[2]) }
  const rows = await listPossibleDuplicates(context.db, await scopeFor(context, actor), {
    limit: query.limit + 1,
    after,
  })
  return toPage(
    rows,
    query.limit,
    ({ day, later, earlier }) => [day, later.sheetId, earlier.sheetId],
    (pair) => pair,
  )
}

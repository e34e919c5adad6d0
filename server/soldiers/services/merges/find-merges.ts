import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import type { Merge } from '../../../contract/soldiers/merges.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { listMerges } from '../../db/merges/merges.db.ts'

/** Merges of soldiers entered twice, the latest first. */
export async function findMerges(
  context: Context,
  actor: Actor,
  query: { limit: number; after?: string | undefined; soldierId?: string | undefined },
): Promise<{ items: Merge[]; next: string | null }> {
  requireAction(actor, 'manage-people')
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { at: String(key[0]), id: String(key[1]) }
  return toPage(
    await listMerges(context.db, query.soldierId, { limit: query.limit + 1, after }),
    query.limit,
    ({ at, id }) => [at, id],
    (merge) => merge,
  )
}

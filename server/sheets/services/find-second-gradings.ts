import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { SecondGrading } from '../../contract/sheets/second-gradings.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listSecondGradings } from '../db/second-gradings.db.ts'

/** Attempts that two graders graded, latest first: what the training office looks at where they differ. */
export async function findSecondGradings(
  context: Context,
  actor: Actor,
  query: { differing: 'true' | 'false'; limit: number; after?: string | undefined },
): Promise<{ items: SecondGrading[]; next: string | null }> {
  requireAction(actor, 'decide-sheets')
  const key = fromCursor(query.after, ['day', 'uuid'])
  const after = key && { day: String(key[0]), id: String(key[1]) }
  const page = { limit: query.limit + 1, after }
  const filter = { differing: query.differing === 'true' }
  const rows = await listSecondGradings(context.db, await scopeFor(context, actor), filter, page)
  return toPage(
    rows,
    query.limit,
    ({ day, second }) => [day, second.sheetId],
    (pair) => pair,
  )
}

import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { UnitCounts } from '../../contract/readiness/unit-counts.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listUnitCounts } from '../db/unit-counts.db.ts'
import type { DashboardQuery } from './readiness.ts'

/** How many of each unit stand how as of a day, in the order of the tree. */
export async function findUnitCounts(
  context: Context,
  actor: Actor,
  query: DashboardQuery & { certification?: string | undefined },
): Promise<{ items: UnitCounts[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const day = query.asOf ?? (await today(context, query.unitId))
  const key = fromCursor(query.after, ['uuid'])
  const filter = { day, unitId: query.unitId, certification: query.certification }
  const page = { after: key && String(key[0]), limit: query.limit + 1 }
  return toPage(
    await listUnitCounts(context.db, scope, filter, page),
    query.limit,
    ({ unitId }) => [unitId],
    (unit) => unit,
  )
}

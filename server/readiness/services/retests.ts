import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { Retest } from '../../contract/standards/certifications.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listRetests } from '../db/retests.db.ts'
import type { DashboardQuery } from './readiness.ts'

/** The backlog of retests of a unit as of a day, by due date. */
export async function findRetests(
  context: Context,
  actor: Actor,
  query: DashboardQuery & { soldierId?: string | undefined },
): Promise<{ items: Retest[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const day = query.asOf ?? (await today(context, query.unitId))
  const key = fromCursor(query.after, ['day', 'text', 'text', 'text'])
  const after = key as [string, string, string, string] | null
  const rows = await listRetests(
    context.db,
    scope,
    { day, unitId: query.unitId, soldierId: query.soldierId },
    { limit: query.limit + 1, after },
  )
  return toPage(
    rows,
    query.limit,
    ({ due, rosterNumber, certification, standard }) => [due, rosterNumber, certification, standard],
    (retest) => retest,
  )
}

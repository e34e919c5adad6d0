import type { Retest } from '../../contract/certifications.ts'
import { listRetests } from '../../db/retests.db.ts'
import type { Actor } from '../actor.ts'
import type { Context } from '../context.ts'
import { fromCursor, toPage } from '../cursor.ts'
import { today } from '../today.ts'
import { type DashboardQuery, requireKnownUnit } from './readiness.ts'

/** The backlog of retests of a unit as of a day, by due date. */
export async function findRetests(
  context: Context,
  _actor: Actor,
  query: DashboardQuery,
): Promise<{ items: Retest[]; next: string | null }> {
  await requireKnownUnit(context, query.unitId)
  const day = query.asOf ?? (await today(context, query.unitId))
  const key = fromCursor(query.after, ['day', 'text', 'text', 'text'])
  const after = key as [string, string, string, string] | null
  const rows = await listRetests(context.db, { day, unitId: query.unitId }, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ due, rosterNumber, certification, standard }) => [due, rosterNumber, certification, standard],
    (retest) => retest,
  )
}

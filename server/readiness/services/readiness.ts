import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toCursor } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { Readiness, ReadinessSort } from '../../contract/standards/certifications.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { readReadiness } from '../db/readiness.db.ts'

export interface DashboardQuery {
  readonly asOf?: string | undefined
  readonly unitId?: string | undefined
  readonly limit: number
  readonly after?: string | undefined
}

/** Of so many units the counts come with the first page; a battalion has fewer. */
const UNITS = 24

/** Who of a unit can stand as of a day, by soldier and certification; with the first page the counts of all. */
export async function getReadiness(
  context: Context,
  actor: Actor,
  query: DashboardQuery & {
    certification?: string | undefined
    sort?: ReadinessSort | undefined
    standing?: 'can' | 'cannot' | undefined
  },
): Promise<Readiness> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const now = await today(context, query.unitId)
  const asOf = query.asOf ?? now
  const cursor = fromCursor(query.after, ['text', 'text', 'text'])
  const after = cursor && {
    key: String(cursor[0]),
    rosterNumber: String(cursor[1]),
    certification: String(cursor[2]),
  }
  const filter = { day: asOf, unitId: query.unitId, certification: query.certification }
  const { sort = 'number', standing } = query
  const page = { limit: query.limit + 1, after, sort, standing, today: now, units: UNITS }
  const { items, totals, counts, lastUnit } = await readReadiness(context.db, scope, filter, page)
  const last = items[query.limit - 1]
  const next = items.length > query.limit && last ? toCursor([last.key, last.rosterNumber, last.certification]) : null
  const shown = items.slice(0, query.limit).map(({ key: _, ...item }) => item)
  return { asOf, items: shown, totals, counts, nextCounts: lastUnit && toCursor([lastUnit]), next }
}

import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { Lapse } from '../../contract/readiness/readiness.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { addMonths } from '../../domain/calendar/add-months.ts'
import { listLapses } from '../db/readiness-trend.db.ts'

const USUAL_MONTHS = 3

interface LapseQuery {
  readonly unitId?: string | undefined
  readonly certification?: string | undefined
  readonly through?: string | undefined
  readonly limit: number
  readonly after?: string | undefined
}

/** Who is certified today and lapses by a day (default: in three months) unless they renew, the first to lapse first. */
export async function findLapses(
  context: Context,
  actor: Actor,
  query: LapseQuery,
): Promise<{ items: Lapse[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const day = await today(context, query.unitId)
  const through = query.through ?? addMonths(day, USUAL_MONTHS)
  const key = fromCursor(query.after, ['day', 'text', 'text'])
  const after = key && { validThrough: String(key[0]), rosterNumber: String(key[1]), certification: String(key[2]) }
  const filter = { day, through, unitId: query.unitId, certification: query.certification }
  const rows = await listLapses(context.db, scope, filter, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ validThrough, rosterNumber, certification }) => [validThrough, rosterNumber, certification],
    (lapse) => lapse,
  )
}

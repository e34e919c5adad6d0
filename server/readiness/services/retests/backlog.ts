import { requireUnitInScope } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import { today } from '../../../context/today.ts'
import type { Backlog, KeptGo } from '../../../contract/readiness/retests.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { addMonths } from '../../../domain/calendar/add-months.ts'
import { addDays } from '../../../domain/calendar/plain-date.ts'
import { listKeptGos, readBacklog, readBacklogOfAll } from '../../db/backlog.db.ts'

interface UnitDay {
  readonly asOf?: string | undefined
  readonly unitId?: string | undefined
}

/** The size of the backlog at the end of each of the months before a day, and on that day itself. */
export async function getBacklog(
  context: Context,
  actor: Actor,
  { asOf, unitId, months }: UnitDay & { months: number },
): Promise<Backlog> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, unitId)
  const day = asOf ?? (await today(context, unitId))
  const firstOfMonth = `${day.slice(0, 7)}-01`
  const ends = Array.from({ length: months }, (_, back) => addDays(addMonths(firstOfMonth, -(months - 1 - back)), -1))
  const days = [...ends, day]
  const points = scope.everyone
    ? await readBacklogOfAll(context.db, unitId, days)
    : await readBacklog(context.db, scope, unitId, days)
  return { asOf: day, points }
}

/** GOs kept toward a certification that stop counting soon, the first to do so first. */
export async function findKeptGos(
  context: Context,
  actor: Actor,
  query: UnitDay & { days: number; limit: number; after?: string | undefined },
): Promise<{ items: KeptGo[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const day = query.asOf ?? (await today(context, query.unitId))
  const after = fromCursor(query.after, ['day', 'text', 'text', 'text']) as [string, string, string, string] | null
  const filter = { day, through: addDays(day, query.days), unitId: query.unitId }
  return toPage(
    await listKeptGos(context.db, scope, filter, { limit: query.limit + 1, after }),
    query.limit,
    ({ countsUntil, rosterNumber, certification, standard }) => [countsUntil, rosterNumber, certification, standard],
    (go) => go,
  )
}

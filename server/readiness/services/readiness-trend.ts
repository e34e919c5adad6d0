import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { ReadinessPoint, TrendQuery } from '../../contract/readiness/readiness.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { addMonths } from '../../domain/calendar/add-months.ts'
import { monthEnds } from '../../domain/calendar/month-ends.ts'
import { invalid } from '../../errors.ts'
import { readTrend, readTrendOfAll } from '../db/readiness-trend.db.ts'

const USUAL_MONTHS = 18
const MOST_DAYS = 37

/**
 * Of those required, how many were certified at the end of each month and on the last day asked about, with the people of
 * each of those days, by the units directly below. At most three years at once.
 */
export async function getReadinessTrend(
  context: Context,
  actor: Actor,
  query: TrendQuery,
): Promise<{ items: ReadinessPoint[]; next: null }> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const to = query.to ?? (await today(context, query.unitId))
  const from = query.from ?? addMonths(to, -USUAL_MONTHS)
  if (from > to)
    throw invalid('period-ends-before-it-begins', 'from', 'The period ends before it begins: mend from or to.')
  const days = monthEnds(from, to)
  if (days.length > MOST_DAYS) {
    throw invalid(
      'period-too-long',
      'from',
      'At most three years are shown at once: bring from and to closer together.',
    )
  }
  const items = scope.everyone
    ? await readTrendOfAll(context.db, days, query)
    : await readTrend(context.db, scope, days, query)
  return { items, next: null }
}

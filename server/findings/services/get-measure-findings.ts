import type { Context } from '../../context/context.ts'
import type { FindingsQuery, MeasureFindings } from '../../contract/findings/findings.ts'
import type { Actor } from '../../domain/access/actor.ts'
import {
  type FailingMeasure,
  orderFailingMeasures,
} from '../../domain/statistics/proportions/order-failing-measures.ts'
import { type PooledMeasure, poolMeasures } from '../../domain/tallies/pool-measures.ts'
import { readMeasureTallies } from '../db/findings-measures.db.ts'
import { findingsQuery } from './findings-query.ts'
import { getBasis } from './get-basis.ts'
import { pageOfList } from './page-of-list.ts'
import { type Rest, restOf } from './rest-of.ts'
import { toRate } from './to-rate.ts'

/**
 * Which measures fail: NO-GO of tested with its interval, trials and faults, from the one failed most often; with a unit,
 * beside all others. Versions of a standard in which a measure is defined otherwise have an item of their own.
 */
export async function getMeasureFindings(
  context: Context,
  actor: Actor,
  query: FindingsQuery,
): Promise<MeasureFindings> {
  const { filter, view, ofVersion } = await findingsQuery(context, actor, query)
  const isPart = view.unitId !== view.topUnitId
  const [tallies, basis] = await Promise.all([
    readMeasureTallies(context.db, filter, isPart ? { unitId: view.topUnitId } : null),
    getBasis(context, filter),
  ])
  const pooled = (part: 'own' | 'whole') => poolMeasures(tallies.filter((one) => one.part === part).map(ofVersion))
  const own = pooled('own')
  const rest = isPart ? restOf(own, pooled('whole')) : null
  const items = orderFailingMeasures(own.map((one) => ({ ...one, rest: rest?.get(one) ?? null }))).map(toItem)
  const minors = items.flatMap(({ major, notReached, ...item }) =>
    major ? [] : [{ ...item, notReached: notReachedBounds(item, notReached) }],
  )
  const majors = items.flatMap(
    ({ major, measure, tested, trials: _, incorrect: _2, incorrectShare: _3, notReached: _4, ...item }) =>
      major
        ? [{ ...item, major: measure, judged: tested, faults: item.faults.map(({ code, count }) => ({ code, count })) }]
        : [],
  )
  const page = pageOfList(minors, query, (item) => [item.standard, item.measure, item.versions[0]!], [
    'text',
    'text',
    'number',
  ])
  return { ...page, majors, basis }
}

/** Between which shares NO-GO would lie had all been decided: none, or all, of those not reached NO-GO. Null where none was. */
function notReachedBounds({ noGo, tested }: { noGo: number; tested: number }, count: number) {
  return count === 0 ? null : { count, low: noGo / (tested + count), high: (noGo + count) / (tested + count) }
}

function toItem({ isCurrent, rate, versions, ...counts }: FailingMeasure<PooledMeasure & { rest: Rest | null }>) {
  return { ...counts, versions: [...versions], current: isCurrent, rate: toRate(rate) }
}

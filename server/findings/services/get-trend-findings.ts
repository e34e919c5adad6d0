import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { TrendFindings, TrendQuery } from '../../contract/findings/trend.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { monthsBetween } from '../../domain/calendar/months-between.ts'
import { type ChartPoint, pChart } from '../../domain/statistics/control/p-chart.ts'
import type { Share } from '../../domain/statistics/proportions/share.ts'
import { inMonths } from '../../domain/tallies/in-months.ts'
import { trendSeries } from '../../domain/tallies/trend-series.ts'
import { type MonthTallies, readMonthTallies } from '../db/findings-trend.db.ts'
import { findingsQuery } from './findings-query.ts'
import { getBasis } from './get-basis.ts'

/** NO-GO rates month by month, of each test and each measure, on charts that say which month is really unusual. */
export async function getTrendFindings(context: Context, actor: Actor, query: TrendQuery): Promise<TrendFindings> {
  const { filter, view, ofVersion } = await findingsQuery(context, actor, query)
  const [tallies, basis, day] = await Promise.all([
    readMonthTallies(context.db, { ...filter, periods: inMonths(filter.periods) }),
    getBasis(context, filter),
    today(context, view.unitId),
  ])
  const months = monthsOf(tallies, filter.to !== null && filter.to < day ? filter.to : day)
  const series = trendSeries(tallies.map(ofVersion))
    .filter(({ measure }) => query.measure === undefined || measure === query.measure)
    .flatMap(({ isCurrent, versions, byMonth, ...one }) => {
      const chart = chartOf(months, byMonth)
      return chart === null ? [] : [{ ...one, versions: [...versions], current: isCurrent, ...chart }]
    })
  const judgedMonths = series.reduce((sum, { points }) => sum + points.filter(({ n }) => n > 0).length, 0)
  return { months, series, judgedMonths, basis }
}

/** From the first month with a test through the month of the last day asked about. */
function monthsOf(tallies: readonly MonthTallies[], lastDay: string): string[] {
  const [first, last] = [tallies[0]?.month, tallies.at(-1)?.month]
  if (first === undefined || last === undefined) return []
  const end = lastDay.slice(0, 7)
  return monthsBetween(first, [end, last].sort().at(-1)!)
}

function chartOf(months: readonly string[], byMonth: ReadonlyMap<string, Share>) {
  const periods = months.map((label) => ({ label, ...(byMonth.get(label) ?? { count: 0, n: 0 }) }))
  const chart = pChart(periods)
  if (chart.kind === 'no-data') return null
  const count = periods.reduce((sum, period) => sum + period.count, 0)
  const n = periods.reduce((sum, period) => sum + period.n, 0)
  return { count, n, centre: chart.centre, points: chart.points.map(toPoint) }
}

function toPoint(point: ChartPoint): TrendFindings['series'][number]['points'][number] {
  const { label: month } = point
  if (point.kind === 'no-data') {
    return { month, count: 0, n: 0, rate: null, low: null, high: null, beyond: null, chance: null, signals: [] }
  }
  const { count, n, rate, low, high, beyond, chance, signals } = point
  return { month, count, n, rate, low, high, beyond, chance, signals }
}

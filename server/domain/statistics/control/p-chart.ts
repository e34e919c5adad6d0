import { binomialCumulative } from '../numeric/binomial-cumulative.ts'
import { normalCumulative } from '../numeric/normal-cumulative.ts'
import { requireCount } from '../numeric/require-count.ts'
import { requireProbability } from '../numeric/require-probability.ts'
import { longRuns, type PointSide } from './long-runs.ts'

export type PeriodCount = { label: string; count: number; n: number }
export type Signal = 'beyond-limit' | 'run-of-eight'
export type ChartPoint =
  | { kind: 'no-data'; label: string }
  | {
      kind: 'point'
      label: string
      count: number
      n: number
      rate: number
      low: number
      high: number
      beyond: 'above' | 'below' | null
      chance: number
      signals: Signal[]
    }
export type PChart = { kind: 'no-data' } | { kind: 'chart'; centre: number; points: ChartPoint[] }

/** What a normal variable does beyond three standard deviations on one side: 0.00135. */
const RARE = normalCumulative(-3)

/**
 * A p-chart: the rate of each period against three-sigma limits that widen where fewer were tested.
 *
 * Centre p̄ = all counts over all tested (or a given baseline); limits p̄ ± 3 √(p̄ (1 − p̄)/n), kept in [0, 1].
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2; W. A. Shewhart (1931).
 * In: periods in order of time. Out: for each the rate, its limits, `beyond` (on which side of the drawn limits it
 * lies, or null), `chance` (the exact binomial probability, at p̄, of a rate as far out on its side or farther) and the
 * signals that make a period unusual:
 * - "beyond-limit": outside the limits and `chance` at most 0.00135. The limits are a normal approximation, and with
 *   few tested a point passes them by chance far more often than that; such a point is `beyond` but no signal.
 * - "run-of-eight": the eighth or a later period in a row on one side of the centre (Western Electric 1956,
 *   *Statistical Quality Control Handbook*), where all of them on that side are no likelier than 1 in 2⁸. Other run rules
 *   are left out: each adds false alarms.
 *
 * Periods without data are shown, have no limits and neither end nor lengthen a run. The centre comes from the same
 * periods, an unusual one included, unless a baseline is given.
 * Example: 30 samples of 50 with 347 defective in all: 0.2313, 0.0524 to 0.4102; samples 15 and 23 stand out.
 */
export function pChart(periods: readonly PeriodCount[], baseline?: number): PChart {
  for (const { label, count, n } of periods) {
    requireCount(n, `pChart, ${label}: n`)
    requireCount(count, `pChart, ${label}: count`, n)
  }
  if (baseline !== undefined) requireProbability(baseline, 'pChart: baseline')
  const total = periods.reduce((sum, { n }) => sum + n, 0)
  if (total === 0) return { kind: 'no-data' }
  const centre = baseline ?? periods.reduce((sum, { count }) => sum + count, 0) / total
  const runs = longRuns(periods.map((period) => sideOf(period, centre)))
  const points = periods.map((period, i) => judgePeriod(period, centre, runs[i]!))
  return { kind: 'chart', centre, points }
}

/** The side of the centre a rate lies on, and the binomial probability, at the centre, of a rate on that side. */
function sideOf({ count, n }: PeriodCount, centre: number): PointSide | null {
  if (n === 0) return null
  const side = Math.sign(count / n - centre)
  if (side === 0) return { side, chance: 1 }
  let below = Math.ceil(n * centre) - 1
  while ((below + 1) / n < centre) below += 1
  while (below >= 0 && below / n >= centre) below -= 1
  const notAbove = (below + 1) / n === centre ? below + 1 : below
  return {
    side,
    chance: side < 0 ? binomialCumulative(below, n, centre) : binomialCumulative(n - notAbove - 1, n, 1 - centre),
  }
}

function judgePeriod({ label, count, n }: PeriodCount, centre: number, inLongRun: boolean): ChartPoint {
  if (n === 0) return { kind: 'no-data', label }
  const rate = count / n
  const reach = 3 * Math.sqrt((centre * (1 - centre)) / n)
  const [low, high] = [Math.max(0, centre - reach), Math.min(1, centre + reach)]
  const beyond = rate > high ? 'above' : rate < low ? 'below' : null
  const chance = rate > centre ? binomialCumulative(n - count, n, 1 - centre) : binomialCumulative(count, n, centre)
  const signals: Signal[] = []
  if (beyond && chance <= RARE) signals.push('beyond-limit')
  if (inLongRun) signals.push('run-of-eight')
  return { kind: 'point', label, count, n, rate, low, high, beyond, chance, signals }
}

import type { Interval } from '../interval.ts'
import { twoSidedQuantile } from '../numeric/two-sided-quantile.ts'

/** How many ended so at a time: with the event, with the competing one, or last seen with neither. */
export interface CompetingTally {
  readonly time: number
  readonly events: number
  readonly competing: number
  readonly censored: number
}

export interface IncidencePoint {
  readonly time: number
  readonly atRisk: number
  readonly events: number
  readonly competing: number
  readonly censored: number
  /** Share with the event, and with the competing one, by this time; the rest has neither. */
  readonly incidence: number
  readonly competingIncidence: number
  /** Of `incidence`; null where nothing has happened yet, or all is over. */
  readonly interval: Interval | null
}

/**
 * The cumulative incidence of an event where another ends the waiting too: who leaves can no longer be certified, so leaving is
 * no censoring. With S the share with neither before a time, d events and n at risk, F rises by S d/n.
 *
 * Source: O. O. Aalen & S. Johansen (1978), *Scand. J. Statist.* 5:141–150; variance by the delta method, J. J. Gaynor et al. (1993),
 * *JASA* 88:400–409, which without a competing event is Greenwood's. The interval is symmetric on the log-log scale of 1 − F.
 * Ties: those censored at a time count as at risk at it.
 * In: tallies by time in any order. Out: a point for each distinct time.
 */
export function aalenJohansen(tallies: readonly CompetingTally[], level = 0.95): IncidencePoint[] {
  const z = twoSidedQuantile(level)
  const byTime = new Map<number, CompetingTally>()
  for (const one of tallies) {
    const { events = 0, competing = 0, censored = 0 } = byTime.get(one.time) ?? {}
    byTime.set(one.time, {
      time: one.time,
      events: events + one.events,
      competing: competing + one.competing,
      censored: censored + one.censored,
    })
  }
  const rows = [...byTime.values()]
    .filter(({ events, competing, censored }) => events + competing + censored > 0)
    .sort((a, b) => a.time - b.time)
  let atRisk = rows.reduce((sum, { events, competing, censored }) => sum + events + competing + censored, 0)
  let [neither, incidence, competingIncidence] = [1, 0, 0]
  // Sums over the times so far of v, vF, vF² with v = d/(n(n−d)); of w and wF with w = S d₁/n²; of S² d₁(n−d₁)/n³.
  let [v, vf, vff, w, wf, own] = [0, 0, 0, 0, 0, 0]
  return rows.map((row): IncidencePoint => {
    const { events, competing, censored } = row
    const n = atRisk
    const all = events + competing
    own += (neither ** 2 * events * (n - events)) / n ** 3
    const weight = (neither * events) / n ** 2
    incidence += (neither * events) / n
    competingIncidence += (neither * competing) / n
    neither *= (n - all) / n
    // Where nobody is left, no later time asks for this one's part.
    const spread = all === n ? 0 : all / (n * (n - all))
    v += spread
    vf += spread * incidence
    vff += spread * incidence ** 2
    w += weight
    wf += weight * incidence
    atRisk -= all + censored
    const variance = incidence ** 2 * v - 2 * incidence * vf + vff + own - 2 * (incidence * w - wf)
    return { ...row, atRisk: n, incidence, competingIncidence, interval: limits(incidence, variance, z) }
  })
}

function limits(incidence: number, variance: number, z: number): Interval | null {
  const left = 1 - incidence
  if (incidence === 0 || left < 1e-12 || !(variance > 0)) return null
  const power = Math.exp((z * Math.sqrt(variance)) / (left * Math.log(left)))
  return { low: 1 - left ** power, high: 1 - left ** (1 / power) }
}

/** The time by which half have the event, and where its interval lies; null: not reached. */
export function halfTime(points: readonly IncidencePoint[]): {
  readonly median: number | null
  readonly low: number | null
  readonly high: number | null
} {
  const first = (reaches: (point: IncidencePoint) => boolean) => points.find(reaches)?.time ?? null
  // A sum of shares may end a rounding below a half.
  const HALF = 0.5 - 1e-9
  return {
    median: first(({ incidence }) => incidence >= HALF),
    low: first(({ interval, incidence }) => (interval?.high ?? incidence) >= HALF),
    high: first(({ interval, incidence }) => (interval?.low ?? incidence) >= HALF),
  }
}

import type { TimeToCertify } from '../../contract/findings/time-to-certify.ts'
import { kaplanMeier, type SurvivalPoint } from '../../domain/statistics/survival/kaplan-meier.ts'
import { medianTime } from '../../domain/statistics/survival/median-time.ts'
import type { TimeTally } from '../../domain/statistics/survival/time-tally.ts'
import type { CertifyTally } from '../db/findings-certify.db.ts'
import { LEVEL } from './get-basis.ts'

/** Stays between 0 and 1 by itself, and holds better than the plain one with few soldiers. */
export const CURVE_TRANSFORMATION = 'log-log'

/** Those certified and those last seen uncertified, by days. */
export const timesOf = (tallies: readonly CertifyTally[]): TimeTally[] =>
  tallies.map(({ days, certified, waiting, left }) => ({ time: days, events: certified, censored: waiting + left }))

/** The curve of a group of soldiers in the wire format. */
export function toCurve(tallies: readonly CertifyTally[]): TimeToCertify['items'][number]['all'] {
  const curve = kaplanMeier(timesOf(tallies), CURVE_TRANSFORMATION, LEVEL)
  const sum = (of: 'certified' | 'waiting' | 'left') => tallies.reduce((total, one) => total + one[of], 0)
  const counts = { certified: sum('certified'), waiting: sum('waiting'), left: sum('left') }
  const soldiers = counts.certified + counts.waiting + counts.left
  const median = medianTime(curve)
  if (curve.kind === 'no-data' || median.kind === 'no-data') {
    return { soldiers, ...counts, median: null, medianInterval: { low: null, high: null }, points: [] }
  }
  return {
    soldiers,
    ...counts,
    median: median.median,
    medianInterval: { low: median.low, high: median.high },
    points: steps(curve.points).map(({ time, atRisk, events, censored, survival, interval }) => ({
      day: time,
      atRisk,
      certified: events,
      censored,
      uncertified: survival,
      interval,
    })),
  }
}

/** The points at which the curve falls, and where it ends; those censored in between are counted at the next of them. */
function steps(points: readonly SurvivalPoint[]): SurvivalPoint[] {
  let censored = 0
  return points.flatMap((point, i) => {
    censored += point.censored
    if (point.events === 0 && i < points.length - 1) return []
    const step = { ...point, censored }
    censored = 0
    return [step]
  })
}

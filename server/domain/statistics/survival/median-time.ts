import type { SurvivalCurve } from './kaplan-meier.ts'
import type { Transformation } from './survival-limits.ts'

/** A product that should be exactly one half can miss it by rounding. */
const HALF = 0.5 + 1e-12

export type MedianTime =
  | { kind: 'no-data' }
  | {
      kind: 'reached' | 'not-reached'
      median: number | null
      low: number | null
      high: number | null
      transformation: Transformation
      level: number
    }

/**
 * The median time to the event: the first time by which at most half are without it.
 *
 * Its interval runs from the first time at which the lower limit of the curve is at most one half to the first at
 * which the upper limit is (R. Brookmeyer & J. Crowley 1982, *Biometrics* 38:29–41), so it depends on the
 * transformation of the curve, which is passed on. null: not reached in the time seen (an upper end that is null is
 * open). Where the curve comes to 0 there are no limits any more: the lower one counts as 0, the upper one as
 * unknown.
 * Example: 6-MP group of Freireich et al. (1963): 23 weeks, 16 to open (log); 13 to open (log-log).
 */
export function medianTime(curve: SurvivalCurve): MedianTime {
  if (curve.kind === 'no-data') return curve
  const { points, transformation, level } = curve
  const median = points.find(({ survival }) => survival <= HALF)?.time ?? null
  const low = points.find(({ interval }) => (interval?.low ?? 0) <= HALF)?.time ?? null
  const high = points.find(({ interval }) => (interval?.high ?? 1) <= HALF)?.time ?? null
  return { kind: median === null ? 'not-reached' : 'reached', median, low, high, transformation, level }
}

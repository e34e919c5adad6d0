import type { Interval } from '../interval.ts'
import { twoSidedQuantile } from '../numeric/two-sided-quantile.ts'
import { survivalLimits, type Transformation } from './survival-limits.ts'
import { type RiskRow, riskTable, type TimeTally } from './time-tally.ts'

/** After a time: the share without the event yet, Greenwood's standard error and interval (null where S is 0). */
export type SurvivalPoint = RiskRow & { survival: number; standardError: number | null; interval: Interval | null }
export type SurvivalCurve =
  | { kind: 'no-data' }
  | {
      kind: 'curve'
      subjects: number
      events: number
      censored: number
      points: SurvivalPoint[]
      transformation: Transformation
      level: number
    }

/**
 * The Kaplan–Meier curve: the share still without the event (not yet certified) after each time, those who left or are
 * still waiting counted for as long as they were seen.
 *
 * S(t) = Π over times to t of (1 − d/n), d events among n at risk; Greenwood's variance S² Σ d/(n (n − d)).
 * Source: E. L. Kaplan & P. Meier (1958), *JASA* 53:457–481; M. Greenwood (1926).
 * In: tallies by time, the transformation of the interval ["log"], the level. Out: a point for each distinct time,
 * those with censoring only included. It supposes that those who left would have gone on like those who stayed; where
 * people leave because they keep failing, the curve falls too fast. Intervals hold point by point, not for the whole
 * curve.
 * Example: 6-MP group of Freireich et al. (1963): S(6) = 18/21, standard error 0.0764.
 */
export function kaplanMeier(
  tallies: readonly TimeTally[],
  transformation: Transformation = 'log',
  level = 0.95,
): SurvivalCurve {
  const z = twoSidedQuantile(level)
  const rows = riskTable(tallies)
  if (rows.length === 0) return { kind: 'no-data' }
  let survival = 1
  let greenwood = 0
  const points = rows.map((row): SurvivalPoint => {
    const { atRisk, events } = row
    survival *= (atRisk - events) / atRisk
    greenwood += events === 0 ? 0 : events / (atRisk * (atRisk - events))
    const standardError = survival === 0 ? null : survival * Math.sqrt(greenwood)
    return { ...row, survival, standardError, interval: survivalLimits(survival, greenwood, z, transformation) }
  })
  const subjects = rows[0]!.atRisk
  const events = rows.reduce((sum, row) => sum + row.events, 0)
  return { kind: 'curve', subjects, events, censored: subjects - events, points, transformation, level }
}

import type { Interval } from '../../../server/domain/statistics/interval.ts'
import { twoSidedQuantile } from '../../../server/domain/statistics/numeric/two-sided-quantile.ts'
import { type RiskRow, riskTable, type TimeTally } from '../../../server/domain/statistics/survival/time-tally.ts'

/** How the interval of a survival curve is made symmetric: on ln S, or on ln(−ln S). */
export type Transformation = 'log' | 'log-log'

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

/**
 * The interval of a survival probability S from Greenwood's sum G (the variance of ln S).
 *
 * "log": S e^(±z √G), at most 1. "log-log": S^exp(±z √G / ln S), which stays inside (0, 1) by itself.
 * Source: J. D. Kalbfleisch & R. L. Prentice (2002), *The Statistical Analysis of Failure Time Data*, 2nd ed., 1.4.
 * In: S in (0, 1], G ≥ 0, z. Out: null at S = 0, where G is infinite; [1, 1] at S = 1, where nothing has happened yet.
 */
function survivalLimits(
  survival: number,
  greenwood: number,
  z: number,
  transformation: Transformation,
): Interval | null {
  if (survival === 0) return null
  if (greenwood === 0) return { low: survival, high: survival }
  const reach = z * Math.sqrt(greenwood)
  if (transformation === 'log')
    return { low: survival * Math.exp(-reach), high: Math.min(1, survival * Math.exp(reach)) }
  const power = Math.exp(reach / Math.log(survival))
  return { low: survival ** (1 / power), high: survival ** power }
}

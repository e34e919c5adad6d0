import { chiSquareUpperTail } from '../numeric/chi-square-upper-tail.ts'
import { requireLevel } from '../numeric/require-level.ts'
import { solveSymmetric } from '../numeric/solve-symmetric.ts'
import { type RiskRow, riskTable, type TimeTally } from './time-tally.ts'

export type SurvivalGroup = { key: string; tallies: readonly TimeTally[] }
export type GroupOutcome = { key: string; subjects: number; observed: number; expected: number; compared: boolean }
export type LogRank =
  | { kind: 'not-compared'; reason: 'no-events' | 'fewer-than-two-groups'; groups: GroupOutcome[] }
  | {
      kind: 'compared'
      groups: GroupOutcome[]
      covariance: number[][]
      chiSquare: number
      degreesOfFreedom: number
      p: number
      level: number
      differs: boolean
    }

/**
 * The log-rank test of whether groups (companies) differ in their time to the event.
 *
 * At each event time the d events are expected in proportion to those at risk: group g gets d n_g/n, with variance d
 * (n − d)/(n − 1) · n_g/n (1 − n_g/n) and covariance −d (n − d)/(n − 1) · n_g n_h/n². Summed over times, χ² = (O −
 * E)ᵀ V⁻¹ (O − E) over all compared groups but one, with one degree of freedom less than groups.
 * Source: N. Mantel (1966), *Cancer Chemother. Rep.* 50:163–170; R. Peto & J. Peto (1972), *J. R. Stat. Soc. A*
 * 135:185–207.
 * In: tallies by group. Out: for each group subjects, observed and expected events; `differs` only when p is at most
 * 1 − level. A group without anyone at risk when groups could differ is listed with `compared` false and left out of
 * χ². The p-value is a large-sample one; with few events it is rough.
 * Example: 6-MP against placebo (Freireich et al. 1963): 9 against 19.25 expected, χ² = 16.793.
 */
export function logRank(groups: readonly SurvivalGroup[], level = 0.95): LogRank {
  requireLevel(level)
  const tables = groups.map(({ tallies }) => riskTable(tallies))
  const expected = groups.map(() => 0)
  const covariance = groups.map(() => groups.map(() => 0))
  for (const { time, events, atRisk } of riskTable(groups.flatMap(({ tallies }) => tallies))) {
    if (events === 0) continue
    const shares = tables.map((table) => atRiskAt(table, time) / atRisk)
    const spread = atRisk === 1 ? 0 : (events * (atRisk - events)) / (atRisk - 1)
    shares.forEach((share, g) => {
      expected[g]! += events * share
      shares.forEach((other, h) => {
        covariance[g]![h]! += spread * share * ((g === h ? 1 : 0) - other)
      })
    })
  }
  const outcomes = groups.map(({ key }, g) => ({
    key,
    subjects: tables[g]![0]?.atRisk ?? 0,
    observed: tables[g]!.reduce((sum, { events }) => sum + events, 0),
    expected: expected[g]!,
    compared: covariance[g]![g]! > 0,
  }))
  if (outcomes.every(({ observed }) => observed === 0))
    return { kind: 'not-compared', reason: 'no-events', groups: outcomes }
  const places = outcomes.flatMap(({ compared }, g) => (compared ? [g] : []))
  const free = places.slice(1)
  const excess = free.map((g) => outcomes[g]!.observed - outcomes[g]!.expected)
  const weights = solveSymmetric(
    free.map((g) => free.map((h) => covariance[g]![h]!)),
    excess,
  )
  if (free.length === 0 || weights === null)
    return { kind: 'not-compared', reason: 'fewer-than-two-groups', groups: outcomes }
  const chiSquare = Math.max(
    0,
    weights.reduce((sum, weight, i) => sum + weight * excess[i]!, 0),
  )
  const p = chiSquareUpperTail(chiSquare, free.length)
  const differs = p <= 1 - level
  return { kind: 'compared', groups: outcomes, covariance, chiSquare, degreesOfFreedom: free.length, p, level, differs }
}

/** How many of a group are at risk just before a time: those with a row at it or later. */
function atRiskAt(table: readonly RiskRow[], time: number): number {
  return table.find((row) => row.time >= time)?.atRisk ?? 0
}

import type { MeasureFindings } from '../../contract/findings/findings.ts'
import { compareManyRates } from '../../domain/statistics/proportions/compare-many-rates.ts'
import type { PooledMeasure } from '../../domain/tallies/pool-measures.ts'

export type Rest = NonNullable<MeasureFindings['items'][number]['rest']>

/**
 * The measures of a unit against the same measures in all other units, as one family of comparisons.
 * In: counts of the unit, and of everything including it. Out: by measure of the unit; none where either side has no tests.
 */
export function restOf(own: readonly PooledMeasure[], whole: readonly PooledMeasure[]): Map<PooledMeasure, Rest> {
  const pairs = own.map((measure, i) => {
    const all = whole.find((one) => isAlike(one, measure))!
    const second = { count: all.noGo - measure.noGo, n: all.tested - measure.tested }
    return { key: String(i), measure, first: { count: measure.noGo, n: measure.tested }, second }
  })
  const judged = compareManyRates(pairs)
  return new Map(
    pairs.flatMap(({ measure, second }, i): [PooledMeasure, Rest][] => {
      const one = judged[i]!
      if (one.verdict === 'no-data') return []
      const { difference, interval } = one.comparison
      const { p, adjustedP, verdict } = one
      return [[measure, { noGo: second.count, tested: second.n, difference, interval, p, adjustedP, verdict }]]
    }),
  )
}

const isAlike = (a: PooledMeasure, b: PooledMeasure): boolean =>
  a.standard === b.standard && a.measure === b.measure && b.versions.some((version) => a.versions.includes(version))

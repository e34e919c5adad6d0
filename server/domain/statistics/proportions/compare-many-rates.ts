import { benjaminiHochberg } from './benjamini-hochberg.ts'
import { compareRates, type RateComparison } from './compare-rates.ts'
import { fisherExactTest } from './fisher-exact-test.ts'
import type { Share } from './share.ts'

export type RatePair = { key: string; first: Share; second: Share }
export type JudgedRatePair =
  | { key: string; verdict: 'no-data' }
  | {
      key: string
      verdict: 'higher' | 'lower' | 'not-shown'
      comparison: Extract<RateComparison, { kind: 'difference' }>
      p: number
      adjustedP: number
    }

/**
 * A family of comparisons of two rates, such as every measure this quarter against the last.
 *
 * Each has Newcombe's interval and Fisher's exact p; the p-values are adjusted together (Benjamini–Hochberg), since
 * of twenty comparisons one is expected to stand out by chance. "higher" or "lower" (the first against the second)
 * only when both say so: the adjusted p is at most 1 − level and the interval leaves out 0. Pairs without data on a
 * side are no part of the family. Out: in the order given.
 */
export function compareManyRates(pairs: readonly RatePair[], level = 0.95): JudgedRatePair[] {
  const compared = pairs.flatMap(({ key, first, second }) => {
    const comparison = compareRates(first, second, level)
    if (comparison.kind === 'no-data') return []
    const p = fisherExactTest(first.count, first.n - first.count, second.count, second.n - second.count)
    return [{ key, comparison, p }]
  })
  const adjusted = benjaminiHochberg(compared.map(({ p }) => p))
  const judged = new Map(
    compared.map((pair, i) => {
      const adjustedP = adjusted[i]!
      const shown = pair.comparison.differs && adjustedP <= 1 - level
      const verdict = !shown ? 'not-shown' : pair.comparison.difference > 0 ? 'higher' : 'lower'
      return [pair.key, { ...pair, adjustedP, verdict } as const]
    }),
  )
  return pairs.map(({ key }) => judged.get(key) ?? { key, verdict: 'no-data' })
}

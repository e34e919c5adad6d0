import { requireCount } from '../numeric/require-count.ts'

/** Of those who were tested on both of two measures: how many failed both, only one, neither. */
export type PairCounts = { both: number; firstOnly: number; secondOnly: number; neither: number }
export type Phi = { kind: 'phi'; value: number } | { kind: 'undefined'; reason: 'no-data' | 'one-never-varies' }

/**
 * The correlation of two yes/no outcomes: (ad − bc) / √((a + b)(c + d)(a + c)(b + d)).
 *
 * Source: G. U. Yule (1912), *J. R. Stat. Soc.* 75:579–652.
 * In: the 2×2 counts. Out: a value in [−1, 1]; 1 when both always fail together, 0 when failing one says nothing of
 * the other. Undefined, not 0, when either measure was always GO or always NO-GO. Its largest possible value is below
 * 1 where the two failure rates differ.
 * Example: 8 both, 2, 2, 8 neither gives 0.6.
 */
export function phiCoefficient({ both, firstOnly, secondOnly, neither }: PairCounts): Phi {
  for (const cell of [both, firstOnly, secondOnly, neither]) requireCount(cell, 'phiCoefficient: a count')
  const n = both + firstOnly + secondOnly + neither
  if (n === 0) return { kind: 'undefined', reason: 'no-data' }
  const [first, second] = [both + firstOnly, both + secondOnly]
  if (first === 0 || first === n || second === 0 || second === n)
    return { kind: 'undefined', reason: 'one-never-varies' }
  const spread = Math.sqrt(first * (n - first)) * Math.sqrt(second * (n - second))
  const value = (both * neither - firstOnly * secondOnly) / spread
  return { kind: 'phi', value: Math.max(-1, Math.min(1, value)) }
}

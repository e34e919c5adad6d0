import { incompleteBeta } from './incomplete-beta.ts'
import { requireCount } from './require-count.ts'
import { requireProbability } from './require-probability.ts'

/**
 * The binomial probability of at most k of n: P(X ≤ k) = I₁₋ₚ(n − k, k + 1) (Abramowitz & Stegun 1964, 26.5.24).
 * In: a whole k (below 0: 0; n or more: 1), a count n, p in [0, 1]. The upper tail P(X ≥ k), exact where it is small,
 * is `binomialCumulative(n - k, n, 1 - p)`.
 * Example: binomialCumulative(3, 10, 0.3) = 0.6496107184.
 */
export function binomialCumulative(k: number, n: number, p: number): number {
  requireCount(n, 'binomialCumulative: n')
  requireProbability(p, 'binomialCumulative: p')
  if (k < 0) return 0
  if (k >= n) return 1
  return incompleteBeta(1 - p, n - k, k + 1, p)
}

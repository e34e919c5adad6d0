import { requireCount } from '../numeric/require-count.ts'
import { twoSidedQuantile } from '../numeric/two-sided-quantile.ts'
import type { ProportionInterval } from './proportion-interval.ts'
import type { Share } from './share.ts'

/**
 * Wilson's score interval of one proportion.
 *
 * [k + z²/2 ± z √(k (n − k)/n + z²/4)] / (n + z²): the rates that a two-sided score test would not reject.
 * Source: E. B. Wilson (1927), *JASA* 22:209–212; method 3 of R. G. Newcombe (1998), *Stat. Med.* 17:857–872.
 * In: k of n, the level. Out: the interval; exactly 0 below at k = 0 and exactly 1 above at k = n; "no-data" at n = 0.
 * Its coverage is near the level on average, and can be a little below it; the exact interval never is.
 * Example: 10 of 13 gives 0.4974 to 0.9182.
 */
export function wilsonInterval({ count: k, n }: Share, level = 0.95): ProportionInterval {
  requireCount(n, 'wilsonInterval: n')
  requireCount(k, 'wilsonInterval: count', n)
  if (n === 0) return { kind: 'no-data' }
  const z = twoSidedQuantile(level)
  const centre = k + (z * z) / 2
  const half = z * Math.sqrt((k * (n - k)) / n + (z * z) / 4)
  const low = k === 0 ? 0 : (centre - half) / (n + z * z)
  const high = k === n ? 1 : (centre + half) / (n + z * z)
  return { kind: 'interval', rate: k / n, low, high, level }
}

import { betaQuantile } from '../numeric/beta-quantile.ts'
import { requireCount } from '../numeric/require-count.ts'
import { requireLevel } from '../numeric/require-level.ts'
import type { ProportionInterval } from './proportion-interval.ts'
import type { Share } from './share.ts'

/**
 * The exact interval of Clopper and Pearson for one proportion.
 *
 * The rates at which neither k or more, nor k or fewer, of n is rarer than (1 − level)/2. In beta quantiles: the
 * lower limit is that of Beta(k, n − k + 1) at (1 − level)/2, the upper that of Beta(k + 1, n − k) at 1 − (1 −
 * level)/2.
 * Source: C. J. Clopper & E. S. Pearson (1934), *Biometrika* 26:404–413.
 * In: k of n, the level. Out: the interval, 0 below at k = 0 and 1 above at k = n; "no-data" at n = 0. It covers the
 * true rate at least as often as the level says, mostly more often.
 * Example: 10 of 13 gives 0.4619 to 0.9496.
 */
export function exactInterval({ count: k, n }: Share, level = 0.95): ProportionInterval {
  requireCount(n, 'exactInterval: n')
  requireCount(k, 'exactInterval: count', n)
  requireLevel(level)
  if (n === 0) return { kind: 'no-data' }
  const tail = (1 - level) / 2
  const low = k === 0 ? 0 : betaQuantile(tail, k, n - k + 1)
  const high = k === n ? 1 : 1 - betaQuantile(tail, n - k, k + 1)
  return { kind: 'interval', rate: k / n, low, high, level }
}

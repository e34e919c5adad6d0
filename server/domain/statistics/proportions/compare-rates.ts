import type { Interval } from '../interval.ts'
import type { Share } from './share.ts'
import { wilsonInterval } from './wilson-interval.ts'

export type RateComparison =
  | { kind: 'no-data'; missing: 'first' | 'second' | 'both' }
  | { kind: 'difference'; difference: number; interval: Interval; level: number; differs: boolean }

/**
 * The difference of two independent proportions, first − second, with Newcombe's hybrid score interval.
 *
 * With each rate's Wilson limits l and u: d − √((p₁ − l₁)² + (u₂ − p₂)²) to d + √((u₁ − p₁)² + (p₂ − l₂)²).
 * Source: R. G. Newcombe (1998), "Interval estimation for the difference between independent proportions", *Stat.
 * Med.* 17:873–890, method 10. Out: the difference in [−1, 1]. `differs` only when the interval leaves out 0: for one
 * comparison thought of beforehand; for a family of them see `compareManyRates`. "no-data" when either side has none.
 * Soldiers counted on both sides make the two dependent, and the interval too wide or too narrow.
 * Example: 56 of 70 against 48 of 80 differ by 0.20, 0.0524 to 0.3339.
 */
export function compareRates(first: Share, second: Share, level = 0.95): RateComparison {
  const a = wilsonInterval(first, level)
  const b = wilsonInterval(second, level)
  if (a.kind === 'no-data') return { kind: 'no-data', missing: b.kind === 'no-data' ? 'both' : 'first' }
  if (b.kind === 'no-data') return { kind: 'no-data', missing: 'second' }
  const difference = a.rate - b.rate
  const low = difference - Math.hypot(a.rate - a.low, b.high - b.rate)
  const high = difference + Math.hypot(a.high - a.rate, b.rate - b.low)
  const interval = { low: Math.max(-1, low), high: Math.min(1, high) }
  return { kind: 'difference', difference, interval, level, differs: interval.low > 0 || interval.high < 0 }
}

import type { Interval } from '../interval.ts'

/**
 * value ± quantile × standard error, kept in [−1, 1] (down to a value below −1, which single ratings can make); null
 * when the standard error is unknown or 0 (but for rounding), for then the large-sample formula says nothing about
 * the uncertainty.
 */
export function agreementInterval(value: number, standardError: number | null, quantile: number): Interval | null {
  if (standardError === null || standardError < 1e-12) return null
  const reach = quantile * standardError
  return { low: Math.max(Math.min(-1, value), value - reach), high: Math.min(1, value + reach) }
}

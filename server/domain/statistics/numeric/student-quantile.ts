import { betaQuantile } from './beta-quantile.ts'
import { requireLevel } from './require-level.ts'

/**
 * The t of a two-sided interval from Student's distribution: the point exceeded with probability (1 − level)/2.
 * P(|T| > t) = Iₓ(df/2, ½) with x = df/(df + t²) (Abramowitz & Stegun 1964, 26.7.1), so t = √(df (1 − x)/x).
 * In: a level strictly between 0 and 1, df > 0. Relative error below 1e-10.
 * Example: studentQuantile(0.95, 11) = 2.2009851601.
 */
export function studentQuantile(level: number, degreesOfFreedom: number): number {
  requireLevel(level)
  const opposite = betaQuantile(level, 0.5, degreesOfFreedom / 2)
  return Math.sqrt((degreesOfFreedom * opposite) / (1 - opposite))
}

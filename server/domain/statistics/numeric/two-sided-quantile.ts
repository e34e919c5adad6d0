import { normalQuantile } from './normal-quantile.ts'
import { requireLevel } from './require-level.ts'

/**
 * The z of a two-sided normal interval: the point exceeded with probability (1 − level)/2.
 * In: a level strictly between 0 and 1.
 * Example: twoSidedQuantile(0.95) = 1.959963984540054.
 */
export function twoSidedQuantile(level: number): number {
  requireLevel(level)
  return -normalQuantile((1 - level) / 2)
}

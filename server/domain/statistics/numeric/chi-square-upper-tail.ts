import { incompleteGamma } from './incomplete-gamma.ts'

/**
 * The probability that a chi-square variable with so many degrees of freedom exceeds x: Q(df/2, x/2) (Abramowitz &
 * Stegun 1964, 26.4.19).
 * In: x ≥ 0, df > 0. Relative error below 1e-12.
 * Example: chiSquareUpperTail(3.841458820694124, 1) = 0.05.
 */
export function chiSquareUpperTail(x: number, degreesOfFreedom: number): number {
  return incompleteGamma(degreesOfFreedom / 2, x / 2).upper
}

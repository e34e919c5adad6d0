import { incompleteGamma } from './incomplete-gamma.ts'

/**
 * The standard normal distribution function Φ(x), from the incomplete gamma function: Φ(−|x|) = ½ Q(½, x²/2)
 * (Abramowitz & Stegun 1964, 6.5.17 and 26.2.29).
 * In: any number. Relative error of the smaller tail below 1e-12.
 * Example: normalCumulative(1.959963984540054) = 0.975.
 */
export function normalCumulative(x: number): number {
  const tail = incompleteGamma(0.5, (x * x) / 2).upper / 2
  return x < 0 ? tail : 1 - tail
}

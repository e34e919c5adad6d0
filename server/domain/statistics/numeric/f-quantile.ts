import { betaQuantile } from './beta-quantile.ts'

/**
 * The value below which an F variable with `above` and `below` degrees of freedom falls with probability p: x/(1 − x)
 * · below/above, x being the p-quantile of Beta(above/2, below/2) (Abramowitz & Stegun 1964, 26.6.2).
 * In: p in [0, 1), degrees of freedom above 0. Relative error below 1e-10.
 * Example: fQuantile(0.95, 1, 10) = 4.9646.
 */
export function fQuantile(p: number, above: number, below: number): number {
  const x = betaQuantile(p, above / 2, below / 2)
  return ((x / (1 - x)) * below) / above
}

import { devianceTerm } from './deviance-term.ts'
import { stirlingRemainder } from './stirling-remainder.ts'

/**
 * The binomial probability of exactly x of n, C(n, x) pˣ (1 − p)ⁿ⁻ˣ, also for x and n that are not whole (gamma
 * functions in place of factorials), as the beta distribution needs it.
 *
 * By Loader's saddle-point form: the exponent is a sum of small deviances and Stirling remainders, so no digits are
 * lost for large n (C. Loader 2000, "Fast and accurate computation of binomial probabilities").
 * In: 0 ≤ x ≤ n, p in [0, 1], q = 1 − p (give it where it is known more exactly). Relative error below 1e-12 for n ≤
 * 1e6.
 * Example: binomialDensity(2, 3, 0.5) = 0.375.
 */
export function binomialDensity(x: number, n: number, p: number, q = 1 - p): number {
  if (p === 0) return x === 0 ? 1 : 0
  if (q === 0) return x === n ? 1 : 0
  if (x === 0) return Math.exp(n * (p < 0.5 ? Math.log1p(-p) : Math.log(q)))
  if (x === n) return Math.exp(n * (q < 0.5 ? Math.log1p(-q) : Math.log(p)))
  const remainders = stirlingRemainder(n) - stirlingRemainder(x) - stirlingRemainder(n - x)
  const exponent = remainders - devianceTerm(x, n * p) - devianceTerm(n - x, n * q)
  return Math.exp(exponent) * Math.sqrt(n / (2 * Math.PI * x * (n - x)))
}

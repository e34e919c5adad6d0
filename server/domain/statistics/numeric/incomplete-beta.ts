import { binomialDensity } from './binomial-density.ts'

const TINY = 1e-300

/**
 * The regularised incomplete beta function Iₓ(a, b), the share of a Beta(a, b) distribution below x.
 *
 * Continued fraction (Abramowitz & Stegun 1964, 26.5.8) evaluated by Lentz's method, with Iₓ(a, b) = 1 − I₁₋ₓ(b, a)
 * where x lies above (a + 1)/(a + b + 2), so that it converges fast.
 * In: a, b > 0; x in [0, 1]; its complement 1 − x where that is known more exactly. Relative error below 1e-11 for
 * a, b ≤ 1e5, checked against reference implementations.
 * Example: incompleteBeta(0.5, 2, 2) = 0.5.
 */
export function incompleteBeta(x: number, a: number, b: number, complement = 1 - x): number {
  if (!(a > 0 && b > 0)) throw new RangeError(`incompleteBeta: a and b must be above 0, not ${a} and ${b}`)
  if (x <= 0) return 0
  if (complement <= 0) return 1
  if (x > (a + 1) / (a + b + 2)) return 1 - lowerTail(complement, b, a, x)
  return lowerTail(x, a, b, complement)
}

function lowerTail(x: number, a: number, b: number, complement: number): number {
  const front = (binomialDensity(a, a + b, x, complement) * b) / (a + b)
  let c = 1
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1))
  let fraction = d
  for (let m = 1; m < 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / nonZero(1 + even * d)
    c = nonZero(1 + even / c)
    fraction *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / nonZero(1 + odd * d)
    c = nonZero(1 + odd / c)
    fraction *= d * c
    if (Math.abs(d * c - 1) < 2.3e-16) return front * fraction
  }
  throw new RangeError(`incompleteBeta: no convergence for a = ${a}, b = ${b}`)
}

function nonZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value
}

import { devianceTerm } from './deviance-term.ts'
import { stirlingRemainder } from './stirling-remainder.ts'

const TINY = 1e-300

/**
 * The regularised incomplete gamma functions, P(a, x) below and Q(a, x) above x.
 *
 * P by its power series for x < a + 1, Q by its continued fraction above (Abramowitz & Stegun 1964, 6.5.29 and
 * 6.5.31; Lentz's method); the other is the complement. The factor xᵃ e⁻ˣ / Γ(a + 1) is taken in Loader's form.
 * In: a > 0, x ≥ 0. Relative error of the computed tail below 1e-13.
 * Example: incompleteGamma(1, 2).upper = e⁻².
 */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number } {
  if (!(a > 0 && x >= 0)) throw new RangeError(`incompleteGamma: a > 0 and x ≥ 0 are needed, not ${a} and ${x}`)
  if (x === 0) return { lower: 0, upper: 1 }
  const front = Math.exp(-stirlingRemainder(a) - devianceTerm(a, x)) / Math.sqrt(2 * Math.PI * a)
  if (x < a + 1) {
    const lower = front * powerSeries(a, x)
    return { lower, upper: 1 - lower }
  }
  const upper = front * a * continuedFraction(a, x)
  return { lower: 1 - upper, upper }
}

function powerSeries(a: number, x: number): number {
  let term = 1
  let sum = 1
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= x / (a + n)
    sum += term
  }
  return sum
}

function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a
  let c = 1 / TINY
  let d = 1 / b
  let fraction = d
  for (let i = 1; i < 100_000; i++) {
    const numerator = -i * (i - a)
    b += 2
    d = 1 / (numerator * d + b || TINY)
    c = b + numerator / c || TINY
    fraction *= d * c
    if (Math.abs(d * c - 1) < 2.3e-16) return fraction
  }
  throw new RangeError(`incompleteGamma: no convergence for a = ${a}, x = ${x}`)
}

import { stirlingRemainder } from './stirling-remainder.ts'

/**
 * The natural logarithm of the gamma function: (x − ½) ln x − x + ½ ln 2π + r(x), r being Stirling's remainder
 * (Abramowitz & Stegun 1964, 6.1.41).
 * In: x > 0. Error below 1e-14 of max(1, |result|).
 * Example: logGamma(5) = ln 24.
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`logGamma: x must be above 0, not ${x}`)
  return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + stirlingRemainder(x)
}

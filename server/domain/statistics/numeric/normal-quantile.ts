import { requireProbability } from './require-probability.ts'

/** Numerator and denominator, constant term first, on the three ranges of AS 241. */
const CENTRE = [
  [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
] as const
const TAIL = [
  [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
] as const
const FAR_TAIL = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 0.000027115555687434876, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 0.000018463183175100548,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
] as const

/**
 * The point below which a standard normal variable falls with probability p.
 *
 * Rational approximations of M. J. Wichura (1988), "Algorithm AS 241: the percentage points of the normal
 * distribution", *Applied Statistics* 37:477–484 (PPND16, stated accuracy about 1 part in 1e16).
 * In: p in [0, 1]; 0 and 1 give −∞ and ∞.
 * Example: normalQuantile(0.975) = 1.959963984540054.
 */
export function normalQuantile(p: number): number {
  requireProbability(p, 'normalQuantile: p')
  const fromCentre = p - 0.5
  if (Math.abs(fromCentre) <= 0.425) return fromCentre * ratio(CENTRE, 0.180625 - fromCentre * fromCentre)
  const tail = Math.min(p, 1 - p)
  if (tail === 0) return fromCentre < 0 ? -Infinity : Infinity
  const r = Math.sqrt(-Math.log(tail))
  return Math.sign(fromCentre) * (r <= 5 ? ratio(TAIL, r - 1.6) : ratio(FAR_TAIL, r - 5))
}

function ratio([above, below]: readonly [readonly number[], readonly number[]], x: number): number {
  return polynomial(above, x) / polynomial(below, x)
}

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0)
}

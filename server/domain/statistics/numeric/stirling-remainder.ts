const SHIFT = 15

/**
 * What Stirling's formula leaves out: ln Γ(z + 1) − [(z + ½) ln z − z + ½ ln 2π].
 *
 * From 15 on by the asymptotic series in 1/z with the Bernoulli numbers (Abramowitz & Stegun 1964, 6.1.41, seven
 * terms); below it is carried up by r(z) = r(z + 1) + (z + ½) ln(1 + 1/z) − 1, which follows from Γ(z + 2) = (z + 1)
 * Γ(z + 1).
 * In: z > 0. Out: a positive number near 1/(12 z). Absolute error below 2e-15.
 */
export function stirlingRemainder(z: number): number {
  let carried = 0
  let at = z
  for (; at < SHIFT; at++) carried += (at + 0.5) * Math.log1p(1 / at) - 1
  const t = 1 / (at * at)
  const series =
    1 / 12 - t * (1 / 360 - t * (1 / 1260 - t * (1 / 1680 - t * (1 / 1188 - t * (691 / 360360 - t / 156)))))
  return carried + series / at
}

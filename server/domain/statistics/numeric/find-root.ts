/**
 * Where a continuous function crosses zero between two points of opposite sign.
 *
 * R. P. Brent (1973), *Algorithms for Minimization without Derivatives*, ch. 4: inverse quadratic interpolation or
 * the secant where they help, halving where they do not, so that it always ends.
 * In: the function, two ends. Out: a point within a few units of the last place of a crossing. Throws a RangeError
 * when both ends have one sign.
 */
export function findRoot(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to]
  let [fa, fb] = [f(a), f(b)]
  if (fa === 0) return a
  if (fb === 0) return b
  if (fa > 0 === fb > 0) throw new RangeError(`findRoot: no change of sign between ${from} and ${to}`)
  let [c, fc] = [a, fa]
  let step = b - a
  let last = step
  for (let i = 0; i < 5000; i++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      ;[a, b, c] = [b, c, b]
      ;[fa, fb, fc] = [fb, fc, fb]
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(b) + Number.MIN_VALUE
    const half = (c - b) / 2
    if (Math.abs(half) <= tolerance || fb === 0) return b
    const tried = Math.abs(last) >= tolerance && Math.abs(fa) > Math.abs(fb) ? interpolate(a, fa, b, fb, c, fc) : half
    const useful = Math.abs(tried) < Math.min(Math.abs(last) / 2, 1.5 * Math.abs(half)) && tried > 0 === half > 0
    ;[last, step] = useful ? [step, tried] : [half, half]
    ;[a, fa] = [b, fb]
    b += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance
    fb = f(b)
    if (fb > 0 === fc > 0) {
      ;[c, fc] = [a, fa]
      step = last = b - a
    }
  }
  return b
}

/** The step from b to the crossing of the inverse parabola through three points, or of the secant through two. */
function interpolate(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const s = fb / fa
  if (a === c) return ((c - b) * s) / (s - 1)
  const q = fa / fc
  const r = fb / fc
  return (s * ((c - b) * q * (q - r) - (b - a) * (r - 1))) / -((q - 1) * (r - 1) * (s - 1))
}

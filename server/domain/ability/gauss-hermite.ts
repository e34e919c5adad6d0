/** Points and weights that integrate over a standard normal distribution. */
export interface Quadrature {
  readonly points: readonly number[]
  /** They add up to 1. */
  readonly weights: readonly number[]
}

const MOST_STEPS = 100
const known = new Map<number, Quadrature>()

/**
 * Gauss–Hermite's rule of n points for a standard normal variable: exact for polynomials of degree up to 2n − 1.
 *
 * The points are the roots of the Hermite polynomial, found by Newton's method from those of the rule before.
 * Source: W. H. Press et al. (2007), *Numerical Recipes*, 3rd ed., 4.6 (orthonormal recurrence); for a normal variable points
 * are multiplied by √2 and weights divided by √π.
 */
export function gaussHermite(n: number): Quadrature {
  const made = known.get(n) ?? makeRule(n)
  known.set(n, made)
  return made
}

function makeRule(n: number): Quadrature {
  const points: number[] = new Array(n).fill(0)
  const weights: number[] = new Array(n).fill(0)
  let z = 0
  for (let i = 0; i < (n + 1) / 2 && i < n; i++) {
    z = firstGuess(i, n, z, points)
    let slope = 1
    for (let step = 0; step < MOST_STEPS; step++) {
      const [value, before] = hermite(n, z)
      slope = Math.sqrt(2 * n) * before
      const move = value / slope
      z -= move
      if (Math.abs(move) < 1e-15) break
    }
    points[i] = z
    points[n - 1 - i] = -z
    weights[i] = 2 / slope ** 2
    weights[n - 1 - i] = weights[i]!
  }
  return {
    points: points.map((x) => x * Math.SQRT2),
    weights: weights.map((w) => w / Math.sqrt(Math.PI)),
  }
}

function firstGuess(i: number, n: number, z: number, points: readonly number[]): number {
  if (i === 0) return Math.sqrt(2 * n + 1) - 1.85575 * (2 * n + 1) ** -0.16667
  if (i === 1) return z - (1.14 * n ** 0.426) / z
  if (i === 2) return 1.86 * z - 0.86 * points[0]!
  if (i === 3) return 1.91 * z - 0.91 * points[1]!
  return 2 * z - points[i - 2]!
}

/** The orthonormal Hermite polynomials of degree n and n − 1 at z. */
function hermite(n: number, z: number): [number, number] {
  let [here, before] = [Math.PI ** -0.25, 0]
  for (let j = 0; j < n; j++) {
    const next = z * Math.sqrt(2 / (j + 1)) * here - Math.sqrt(j / (j + 1)) * before
    before = here
    here = next
  }
  return [here, before]
}

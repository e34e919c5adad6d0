import { findRoot } from './find-root.ts'
import { incompleteBeta } from './incomplete-beta.ts'
import { requireProbability } from './require-probability.ts'

/**
 * The value below which a Beta(a, b) variable falls with probability p: the x where Iₓ(a, b) = p, by root search, as
 * I grows with x.
 * In: p in [0, 1], a, b > 0. Relative error below 1e-11 (checked against a reference package).
 * Example: betaQuantile(0.975, 3, 7) = 0.6000935737.
 */
export function betaQuantile(p: number, a: number, b: number): number {
  requireProbability(p, 'betaQuantile: p')
  return findRoot((x) => incompleteBeta(x, a, b) - p, 0, 1)
}

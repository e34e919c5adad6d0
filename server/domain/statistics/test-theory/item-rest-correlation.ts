import type { Interval } from '../interval.ts'
import { twoSidedQuantile } from '../numeric/two-sided-quantile.ts'
import type { ResponseSums } from './response-sums.ts'
import { scoreMoments } from './score-moments.ts'

export type ItemRest =
  | { kind: 'undefined'; reason: 'no-data' | 'one-item' | 'item-never-varies' | 'rest-never-varies' }
  | { kind: 'correlation'; value: number; interval: Interval | null; level: number }

/**
 * The corrected item–total correlation: of an item with the score on all other items, so that it is not correlated with
 * itself.
 *
 * cov(xᵢ, T − xᵢ) / √(var xᵢ · var(T − xᵢ)).
 * Source: S. Henrysson (1963), *Psychometrika* 28:211–218. Interval by Fisher's z, tanh(artanh r ± z/√(n − 3)) (R. A.
 * Fisher 1921, *Metron* 1:3–32): an approximation for 0/1 items, and null with fewer than 4 sheets or at r = ±1.
 * In: the sums of a complete matrix, the item's place. Out: a value in [−1, 1]; near 0 the measure tells nothing
 * about the rest, below 0 those good at the rest fail it. Undefined, not 0, when everybody (or nobody) passed it.
 */
export function itemRestCorrelation(sums: ResponseSums, item: number, level = 0.95): ItemRest {
  const z = twoSidedQuantile(level)
  const rest = sums.together.map((_, i) => i).filter((i) => i !== item)
  if (sums.sheets === 0) return { kind: 'undefined', reason: 'no-data' }
  if (rest.length === 0) return { kind: 'undefined', reason: 'one-item' }
  const moments = scoreMoments(sums)
  const own = moments.covariance(item, item)
  const others = moments.totalVariance(rest)
  if (own === 0) return { kind: 'undefined', reason: 'item-never-varies' }
  if (others === 0) return { kind: 'undefined', reason: 'rest-never-varies' }
  const ratio = moments.covarianceWithSum(item, rest) / (Math.sqrt(own) * Math.sqrt(others))
  const value = Math.max(-1, Math.min(1, ratio))
  const reach = z / Math.sqrt(sums.sheets - 3)
  const known = sums.sheets > 3 && Math.abs(value) < 1
  const interval = known
    ? { low: Math.tanh(Math.atanh(value) - reach), high: Math.tanh(Math.atanh(value) + reach) }
    : null
  return { kind: 'correlation', value, interval, level }
}

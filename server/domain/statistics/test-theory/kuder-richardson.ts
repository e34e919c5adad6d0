import type { Interval } from '../interval.ts'
import { feldtInterval } from './feldt-interval.ts'
import type { ResponseSums } from './response-sums.ts'
import { scoreMoments } from './score-moments.ts'

export type Reliability =
  | { kind: 'undefined'; reason: 'no-data' | 'one-sheet' | 'one-item' | 'no-variation' }
  | { kind: 'reliability'; value: number; interval: Interval; level: number; sheets: number; items: number }

/**
 * KR-20, the reliability of a score made of yes/no items: k/(k − 1) · (1 − Σ pᵢ qᵢ / σ²), σ² the variance of the score.
 *
 * Both variances have divisor n (population), so KR-20 equals coefficient alpha; with the sample variance below and p
 * q above, which some texts mix, the value would be a little higher.
 * Source: G. F. Kuder & M. W. Richardson (1937), *Psychometrika* 2:151–160. Interval: `feldtInterval`.
 * In: the sums of a complete matrix; the items to use [all]. Out: at most 1, and negative when items work against
 * each other; undefined with fewer than two sheets or items, and when every sheet has the same score.
 * Example: the 1000 × 5 answers of LSAT section 6 give 0.2950.
 */
export function kuderRichardson(sums: ResponseSums, items = sums.together.map((_, i) => i), level = 0.95): Reliability {
  const { sheets } = sums
  if (sheets === 0) return { kind: 'undefined', reason: 'no-data' }
  if (sheets === 1) return { kind: 'undefined', reason: 'one-sheet' }
  if (items.length < 2) return { kind: 'undefined', reason: 'one-item' }
  const moments = scoreMoments(sums)
  const total = moments.totalVariance(items)
  if (total === 0) return { kind: 'undefined', reason: 'no-variation' }
  const ofItems = items.reduce((sum, item) => sum + moments.covariance(item, item), 0)
  const value = (items.length / (items.length - 1)) * (1 - ofItems / total)
  const interval = feldtInterval(value, sheets, items.length, level)
  return { kind: 'reliability', value, interval, level, sheets, items: items.length }
}

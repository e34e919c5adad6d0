import type { Interval } from '../interval.ts'
import { fQuantile } from '../numeric/f-quantile.ts'
import { requireLevel } from '../numeric/require-level.ts'

/**
 * Feldt's interval for KR-20 (and coefficient alpha): 1 − (1 − r) F at the upper and at the lower tail, F with n − 1
 * and (n − 1)(k − 1) degrees of freedom.
 *
 * Source: L. S. Feldt (1965), *Psychometrika* 30:357–370; L. S. Feldt, D. J. Woodruff & F. A. Salih (1987), *Applied
 * Psychological Measurement* 11:93–103. It assumes items that measure one thing equally well with normal errors; for
 * GO / NO-GO items it is an approximation.
 * In: the coefficient r ≤ 1, at least 2 sheets and 2 items. Out: limits of which the upper is at most 1; the lower
 * can be negative.
 * Example: 0.85 from 7 items and 89 persons: 0.7971 to 0.8931.
 */
export function feldtInterval(coefficient: number, sheets: number, items: number, level = 0.95): Interval {
  requireLevel(level)
  if (!(sheets >= 2 && items >= 2))
    throw new RangeError(`feldtInterval: needs 2 sheets and items, not ${sheets}, ${items}`)
  const tail = (1 - level) / 2
  const limit = (p: number) => 1 - (1 - coefficient) * fQuantile(p, sheets - 1, (sheets - 1) * (items - 1))
  return { low: limit(1 - tail), high: limit(tail) }
}

import type { Interval } from '../interval.ts'
import { requireLevel } from '../numeric/require-level.ts'
import { twoSidedQuantile } from '../numeric/two-sided-quantile.ts'
import { kuderRichardson } from './kuder-richardson.ts'
import type { ResponsePattern, ResponseSums } from './response-sums.ts'

/** KR-20 of the others less KR-20 of all, with the interval of this difference; null: one of both is not defined. */
export interface Change {
  readonly value: number
  readonly interval: Interval
}

/**
 * By how much a test would tell more surely without an item, for every item. Both coefficients come from the same sheets, so the
 * interval is of their difference: the jackknife's, which leaves out each sheet once.
 * Source: B. Efron & R. J. Tibshirani (1993), *An Introduction to the Bootstrap*, 11.5; normal limits.
 * In: the patterns of a complete matrix and their sums. Out: by item. Where leaving out a sheet leaves nothing defined, null.
 */
export function changesWithout(
  patterns: readonly ResponsePattern[],
  sums: ResponseSums,
  level = 0.95,
): (Change | null)[] {
  requireLevel(level)
  const places = sums.together.map((_, i) => i)
  const z = twoSidedQuantile(level)
  const own = differences(sums, places)
  const left = patterns
    .filter(({ count }) => count > 0)
    .map(({ marks, count }) => ({ count, of: differences(without(sums, marks), places) }))
  return places.map((item) => {
    const value = own[item]
    const values = left.map(({ of }) => of[item]!)
    if (value == null || values.some((one) => one === null)) return null
    const mean = left.reduce((sum, { count }, i) => sum + count * values[i]!, 0) / sums.sheets
    const squares = left.reduce((sum, { count }, i) => sum + count * (values[i]! - mean) ** 2, 0)
    const reach = z * Math.sqrt(((sums.sheets - 1) / sums.sheets) * squares)
    return { value, interval: { low: value - reach, high: value + reach } }
  })
}

function differences(sums: ResponseSums, places: readonly number[]): (number | null)[] {
  const whole = kuderRichardson(sums, [...places])
  return places.map((item) => {
    const others = kuderRichardson(
      sums,
      places.filter((place) => place !== item),
    )
    return whole.kind === 'reliability' && others.kind === 'reliability' ? others.value - whole.value : null
  })
}

function without({ sheets, together }: ResponseSums, marks: readonly number[]): ResponseSums {
  return {
    sheets: sheets - 1,
    together: together.map((row, i) => row.map((both, j) => both - marks[i]! * marks[j]!)),
  }
}

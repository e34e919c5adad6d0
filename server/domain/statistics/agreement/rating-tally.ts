import { requireCount } from '../numeric/require-count.ts'

/** How many graders put a sheet in each category, and how many sheets were rated exactly so. */
export type RatedSheets = { ratings: readonly number[]; sheets: number }

/** One kind of rated sheet: its share of agreeing pairs (null with fewer than two ratings) and of each category. */
export type RatedKind = { sheets: number; agreement: number | null; shares: number[] }
export type RatingTally = {
  categories: number
  sheets: number
  paired: number
  observed: number
  shares: number[]
  kinds: RatedKind[]
}

/**
 * What coefficients for several graders are made of: the mean share of agreeing pairs of ratings, and the mean share of
 * each category.
 *
 * Sheets with a single rating enter the category shares and not the agreement; sheets without one enter nothing (K.
 * L. Gwet 2014, *Handbook of Inter-Rater Reliability*, 4th ed., ch. 2 and 5).
 * In: tallies, all over the same categories, at least two. Out: null when no sheet has two ratings.
 */
export function tallyRatings(rated: readonly RatedSheets[]): RatingTally | null {
  const categories = rated[0]?.ratings.length ?? 0
  const kinds = rated.flatMap(({ ratings, sheets }): RatedKind[] => {
    requireCount(sheets, 'tallyRatings: sheets')
    for (const rating of ratings) requireCount(rating, 'tallyRatings: a count of ratings')
    if (ratings.length !== categories || categories < 2)
      throw new RangeError('tallyRatings: every sheet needs the same categories, at least two')
    const graders = ratings.reduce((sum, count) => sum + count, 0)
    if (graders === 0 || sheets === 0) return []
    const pairs = ratings.reduce((sum, count) => sum + count * (count - 1), 0)
    const agreement = graders < 2 ? null : pairs / (graders * (graders - 1))
    return [{ sheets, agreement, shares: ratings.map((count) => count / graders) }]
  })
  const sheets = kinds.reduce((sum, kind) => sum + kind.sheets, 0)
  const paired = kinds.reduce((sum, kind) => sum + (kind.agreement === null ? 0 : kind.sheets), 0)
  if (paired === 0) return null
  const observed = kinds.reduce((sum, kind) => sum + kind.sheets * (kind.agreement ?? 0), 0) / paired
  const shares = Array.from(
    { length: categories },
    (_, category) => kinds.reduce((sum, kind) => sum + kind.sheets * kind.shares[category]!, 0) / sheets,
  )
  return { categories, sheets, paired, observed, shares, kinds }
}

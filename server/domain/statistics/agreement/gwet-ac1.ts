import { studentQuantile } from '../numeric/student-quantile.ts'
import type { Agreement } from './agreement.ts'
import { agreementBand } from './agreement-band.ts'
import { agreementInterval } from './agreement-interval.ts'
import { linearizedError } from './linearized-error.ts'
import { type RatedSheets, tallyRatings } from './rating-tally.ts'

/**
 * Gwet's AC1 of two or more graders: (pₐ − pₑ)/(1 − pₑ) with pₑ = Σ π (1 − π)/(q − 1) over q categories, π being the
 * mean share of each. It does not collapse, as kappa does, when nearly all ratings are GO.
 *
 * Source: K. L. Gwet (2008), *Br. J. Math. Stat. Psychol.* 61:29–48. Interval by Student's t with n − 1 degrees of
 * freedom.
 * In: tallies of sheets by how many graders chose each category; numbers of graders may differ. Out: always defined
 * where some sheet has two ratings: with a single category in use it is 1, without an interval.
 * Example: two graders, table [[80, 10], [5, 5]]: 0.808 where Cohen's kappa is 0.318.
 */
export function gwetAc1(rated: readonly RatedSheets[], level = 0.95): Agreement {
  const tally = tallyRatings(rated)
  if (tally === null) return { kind: 'undefined', reason: 'no-data' }
  const { categories, observed, sheets, shares } = tally
  const byChance = shares.reduce((sum, share) => sum + share * (1 - share), 0) / (categories - 1)
  const value = (observed - byChance) / (1 - byChance)
  const chancePart = (own: readonly number[]) =>
    own.reduce((sum, share, category) => sum + share * (1 - shares[category]!), 0) / (categories - 1)
  const standardError = linearizedError(tally, value, byChance, chancePart)
  const interval = sheets < 2 ? null : agreementInterval(value, standardError, studentQuantile(level, sheets - 1))
  const band = agreementBand(value)
  return {
    kind: 'agreement',
    value,
    observed,
    byChance,
    subjects: sheets,
    standardError,
    errorIfChance: null,
    interval,
    level,
    band,
  }
}

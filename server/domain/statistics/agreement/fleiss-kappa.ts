import { studentQuantile } from '../numeric/student-quantile.ts'
import type { Agreement } from './agreement.ts'
import { agreementBand } from './agreement-band.ts'
import { agreementInterval } from './agreement-interval.ts'
import { linearizedError } from './linearized-error.ts'
import { type RatedSheets, tallyRatings } from './rating-tally.ts'

/**
 * Fleiss' kappa of several graders who need not be the same on every sheet: (P̄ − P̄ₑ)/(1 − P̄ₑ), P̄ the mean share of
 * agreeing pairs, P̄ₑ = Σ π² over the mean shares π of the categories.
 *
 * Source: J. L. Fleiss (1971), *Psychol. Bull.* 76:378–382; for numbers of graders that differ, and for the standard
 * error, K. L. Gwet (2008), *Br. J. Math. Stat. Psychol.* 61:29–48; standard error under chance agreement (equal
 * numbers only) of J. L. Fleiss, J. C. M. Nee & J. R. Landis (1979), *Psychol. Bull.* 86:974–977. Interval by
 * Student's t with n − 1 degrees of freedom.
 * In: tallies of sheets by how many graders chose each category. Out: undefined when only one category was ever used.
 * Example: Fleiss's 30 subjects and 6 raters give 0.4302.
 */
export function fleissKappa(rated: readonly RatedSheets[], level = 0.95): Agreement {
  const tally = tallyRatings(rated)
  if (tally === null) return { kind: 'undefined', reason: 'no-data' }
  const { observed, sheets, shares } = tally
  if (shares.filter((share) => share > 0).length === 1) return { kind: 'undefined', reason: 'one-category' }
  const byChance = shares.reduce((sum, share) => sum + share * share, 0)
  const value = (observed - byChance) / (1 - byChance)
  const chancePart = (own: readonly number[]) =>
    own.reduce((sum, share, category) => sum + share * shares[category]!, 0)
  const standardError = linearizedError(tally, value, byChance, chancePart)
  const interval = sheets < 2 ? null : agreementInterval(value, standardError, studentQuantile(level, sheets - 1))
  const errorIfChance = chanceError(rated, shares)
  const band = agreementBand(value)
  return {
    kind: 'agreement',
    value,
    observed,
    byChance,
    subjects: sheets,
    standardError,
    errorIfChance,
    interval,
    level,
    band,
  }
}

/** √2 · √[(Σ π(1 − π))² − Σ π(1 − π)(1 − 2π)] / (Σ π(1 − π) · √(n m (m − 1))), for m ratings of every sheet. */
function chanceError(rated: readonly RatedSheets[], shares: readonly number[]): number | null {
  const graders = rated.map(({ ratings }) => ratings.reduce((sum, count) => sum + count, 0))
  const m = graders.find((count) => count > 0) ?? 0
  if (rated.some(({ sheets }, i) => sheets > 0 && graders[i] !== m && graders[i] !== 0)) return null
  const n = rated.reduce((sum, { sheets }, i) => sum + (graders[i] === 0 ? 0 : sheets), 0)
  const spread = shares.reduce((sum, share) => sum + share * (1 - share), 0)
  const skew = shares.reduce((sum, share) => sum + share * (1 - share) * (1 - 2 * share), 0)
  return Math.sqrt((2 * (spread ** 2 - skew)) / (n * m * (m - 1))) / spread
}

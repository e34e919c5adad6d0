import type { Retest } from '#contract/certifications.ts'
import { failingOrder } from '../../model/failing-order.ts'
import type { MeasureCounts, SponsorCounts } from '../../model/finding-counts.ts'
import { type StatusTally, totalOf } from '../../model/tally-status.ts'
import { capital, figure, plural } from '../../words/say-number.ts'

/** The answer of the overview: how many of the certifications that are required are in force. */
export const sayInForce = (tally: StatusTally): string => {
  const total = totalOf(tally)
  if (total === 0) return 'Nobody is required to hold a certification yet.'
  if (tally.certified === total) return `All ${figure(total)} required certifications are in force today.`
  return `${figure(tally.certified)} of ${figure(total)} required certifications are in force today.`
}

/** The measure that fails most, in counts. */
export const sayWorstMeasure = (
  measures: readonly MeasureCounts[],
  titleOf: (measure: MeasureCounts) => string,
): string => {
  const [worst] = failingOrder(measures.filter(({ tested }) => tested > 0))
  if (!worst) return 'No counted test in the last twelve months.'
  if (worst.noGo === 0) return 'No measure was NO-GO in the last twelve months.'
  return `${titleOf(worst)} fails most: ${figure(worst.noGo)} of ${figure(worst.tested)}.`
}

/** Open retests and what presses. */
export const sayRetestBacklog = (retests: readonly Retest[]): string => {
  if (retests.length === 0) return 'No retest is open.'
  const pastDue = retests.filter((retest) => retest.pastDue).length
  const review = retests.filter((retest) => retest.needsReview).length
  const parts = [`${figure(retests.length)} open`, pastDue > 0 ? `${figure(pastDue)} past due` : 'none past due']
  if (review > 0) parts.push(`${figure(review)} ${plural(review, 'needs', 'need')} a review first`)
  return `${parts.join(', ')}.`
}

/** All sponsors together; they are not ranked. */
export const sayAllSponsors = (sponsors: readonly SponsorCounts[]): string => {
  const attempts = sponsors.reduce((sum, sponsor) => sum + sponsor.attempts, 0)
  const passes = sponsors.reduce((sum, sponsor) => sum + sponsor.passes, 0)
  if (attempts === 0) return 'No attempt with a sponsor in the last twelve months.'
  return capital(
    `candidates of ${figure(sponsors.length)} ${plural(sponsors.length, 'sponsor')}: GO in ${figure(passes)} of ${figure(attempts)}.`,
  )
}

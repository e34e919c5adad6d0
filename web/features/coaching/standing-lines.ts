import type { CandidateCoaching } from '#contract/coaching/coaching.ts'
import type { Certification, CertificationStatus, Retest } from '#contract/standards/certifications.ts'
import { formatDay } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'

/** What is in, what is open and what is missing for one certification, a line a standard. */
export const standingLines = (
  status: CertificationStatus,
  terms: Certification | undefined,
  retests: readonly Retest[],
  ahead: readonly Pick<CandidateCoaching['ahead'][number], 'standard' | 'booking'>[],
  titleOf: (standard: string) => string,
  today: string,
): string[] => {
  const renewing = status.status === 'certified' || status.status === 'suspended'
  const lines: string[] = []
  for (const standard of terms?.standards ?? []) {
    const booking = ahead.find((one) => one.standard === standard)?.booking
    const booked = booking ? `booked for ${formatDay(booking.on, today)}` : ''
    const kept = status.toward.find((toward) => toward.standard === standard)
    const retest = retests.find((open) => open.standard === standard && open.certification === status.certification)
    if (retest) {
      const dates = [
        retest.earliest > today ? `from ${formatDay(retest.earliest, today)}` : 'open now',
        retest.pastDue ? `past due since ${formatDay(retest.due, today)}` : `due by ${formatDay(retest.due, today)}`,
        `attempt ${retest.attempt}`,
        retest.noGosInARow > 1 ? `${counted(retest.noGosInARow, 'NO-GO')} in a row` : '',
        retest.needsReview ? 'review needed first' : '',
        booked,
      ]
      lines.push(`${titleOf(standard)}: retest ${dates.filter(Boolean).join(', ')}`)
    } else if (status.retestOpen.includes(standard)) {
      lines.push(`${titleOf(standard)}: retest open${booked && `, ${booked}`}`)
    } else if (kept) {
      lines.push(
        `${titleOf(standard)}: GO on ${formatDay(kept.on, today)}, counts until ${formatDay(kept.countsUntil, today)}`,
      )
    } else if (!renewing) {
      lines.push(`${titleOf(standard)}: missing${booked && `, ${booked}`}`)
    }
  }
  return lines
}

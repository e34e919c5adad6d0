import type { CandidateCoaching } from '#contract/coaching/coaching.ts'
import { formatDay } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'

type Ahead = CandidateCoaching['ahead'][number]

/** When a test ahead is: its booking, else the days of its retest, else that nothing is booked. */
export const formatWhen = ({ booking, retest }: Ahead, timeZone: string | null | undefined, today: string): string => {
  if (booking) {
    const time = booking.startsAt ? ` at ${formatTime(booking.startsAt, timeZone)}` : ''
    const place = booking.place ? `, ${booking.place}` : ''
    return `booked for ${formatDay(booking.on, today)}${time}${place}`
  }
  if (!retest) return 'nothing booked'
  if (retest.pastDue) return `retest past due since ${formatDay(retest.due, today)}, nothing booked`
  const from = retest.needsReview
    ? 'after a review'
    : retest.earliest > today
      ? `from ${formatDay(retest.earliest, today)}`
      : 'possible now'
  return `retest ${from}, due by ${formatDay(retest.due, today)}, nothing booked`
}

import type { CandidateCoaching } from '#contract/coaching/coaching.ts'
import { sayDay } from '../../words/say-day.ts'
import { sayTime } from '../../words/say-time.ts'

type Ahead = CandidateCoaching['ahead'][number]

/** When a test ahead is: its booking, else the days of its retest, else that nothing is booked. */
export const sayWhen = ({ booking, retest }: Ahead, timeZone: string | null | undefined, today: string): string => {
  if (booking) {
    const time = booking.startsAt ? ` at ${sayTime(booking.startsAt, timeZone)}` : ''
    const place = booking.place ? `, ${booking.place}` : ''
    return `booked for ${sayDay(booking.on, today)}${time}${place}`
  }
  if (!retest) return 'nothing booked'
  if (retest.pastDue) return `retest past due since ${sayDay(retest.due, today)}, nothing booked`
  const from = retest.needsReview
    ? 'after a review'
    : retest.earliest > today
      ? `from ${sayDay(retest.earliest, today)}`
      : 'possible now'
  return `retest ${from}, due by ${sayDay(retest.due, today)}, nothing booked`
}

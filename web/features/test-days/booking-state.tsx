import { Link } from 'wouter'
import type { Booking, TestDayDetail } from '#contract/test-days/test-days.ts'
import { addressTo, paths } from '../../paths.ts'
import { formatDay } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'

/** How a booking went, with its sheet; of one whose day was called off, where the candidate went. */
export function BookingState({ booking, day }: { booking: Booking; day: TestDayDetail }) {
  const { state, stateReason, sheetId, movedTo } = booking
  if (sheetId) return <Link href={addressTo(paths.sheet, { id: sheetId })}>tested, its sheet</Link>
  if (movedTo) {
    const at = movedTo.startsAt ? ` at ${formatTime(movedTo.startsAt, day.zone)}` : ''
    const since = movedTo.state === 'booked' ? '' : `, ${movedTo.state}`
    return (
      <>
        <Link href={addressTo(paths.testDay, { id: movedTo.testDayId })}>
          {formatDay(movedTo.on, day.on)}
          {at}
        </Link>
        {movedTo.place && (
          <>
            , <bdi>{movedTo.place}</bdi>
          </>
        )}
        {since}
      </>
    )
  }
  if (day.calledOff && state === 'cancelled' && stateReason === day.calledOff.reason) {
    return <span className="muted">not booked again</span>
  }
  return stateReason ? `${state}: ${stateReason}` : state
}

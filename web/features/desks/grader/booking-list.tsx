import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import type { ListedBooking } from '#contract/test-days/day-list.ts'
import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { turnOf } from '../../../domain/sheets/grading/turn-of.ts'
import { formatBookingState, formatSponsor } from '../../../domain/test-days/format-check-in.ts'
import { addressTo, gradePaths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { formatUnitTime } from '../../../words/format-zone.ts'

interface BookingListProps {
  bookings: readonly ListedBooking[]
  standards: readonly Standard[]
  sheets: readonly KeptSheet[]
  /** Only today's can be started. */
  isToday: boolean
  onCheckIn?: (booking: ListedBooking) => void
}

/** Who is booked, in order of time, and the way to their sheet. */
export function BookingList({ bookings, standards, sheets, isToday, onCheckIn }: BookingListProps) {
  const titleOf = (code: string) => standards.find((standard) => standard.code === code)?.title ?? code
  return (
    <ul className="bookings">
      {bookings.map((booking) => {
        const { id, startsAt, candidate, standard, asSecond, state } = booking
        const turn = turnOf(booking, sheets)
        const running = sheets.find((kept) => kept.state === 'running' && kept.sheet.head.candidate.id === candidate.id)
        return (
          <li key={id}>
            <span className="booking-time">
              {startsAt === null ? 'any time' : formatUnitTime(startsAt, booking.zone)}
            </span>
            <span className="booking-who">
              <b>
                <bdi>
                  {candidate.grade} {candidate.familyName}, {candidate.givenName}
                </bdi>
              </b>{' '}
              <span className="muted">{candidate.rosterNumber}</span>
              <span className="booking-what">
                {titleOf(standard)}
                {asSecond && ', as second grader'}
                {' · '}
                {formatSponsor(candidate.sponsor?.name, booking.sponsorCertified !== false)}
                {state === 'checked in' && ` · ${formatBookingState({ state, checkIn: booking.checkIn ?? null })}`}
              </span>
            </span>
            <span className="booking-button">
              {turn === 'under way' && (
                <Link className="button button-main" href={addressTo(gradePaths.sheet, { id: running?.id ?? id })}>
                  Go on
                </Link>
              )}
              {onCheckIn && (turn === 'to come' || (turn === 'over' && state !== 'tested')) && (
                <Button onClick={() => onCheckIn(booking)}>
                  {state === 'booked' ? 'Check in' : 'Change'}
                  <span className="out-of-sight">
                    {' '}
                    {candidate.grade} {candidate.familyName}
                  </span>
                </Button>
              )}
              {turn === 'to come' && isToday && (
                <Link className="button" href={addressTo(gradePaths.start, { booking: id })}>
                  Start
                </Link>
              )}
              {turn === 'closed' && <span>closed</span>}
              {turn === 'over' && <span>{state}</span>}
            </span>
          </li>
        )
      })}
    </ul>
  )
}

import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import type { Booking, TestDayDetail } from '#contract/test-days/test-days.ts'
import { standardTitle } from '../../domain/standards/titles.ts'
import { fact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { Table } from '../../ui/table.tsx'
import { BookingActions } from './booking-actions.tsx'
import { BookingState } from './booking-state.tsx'

interface LooseBookingsProps {
  day: TestDayDetail
  bookings: readonly Booking[]
  standards: readonly Standard[]
  canChange: boolean
}

/** Bookings of a day that are in no slot: waiting for one, or cancelled. */
export function LooseBookings({ day, bookings, standards, canChange }: LooseBookingsProps) {
  return (
    <Table<Booking>
      caption="Bookings in no slot"
      rows={bookings}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Candidate',
          cell: ({ candidateId, candidateName, standard }) => (
            <Link href={addressTo(paths.candidate, { id: candidateId, standard })}>
              <b>
                <bdi>{candidateName}</bdi>
              </b>
            </Link>
          ),
        },
        { head: 'Standard', bare: true, cell: ({ standard }) => standardTitle(standards, standard) },
        { head: 'Grader', cell: ({ graderName }) => graderName ?? 'not said yet' },
        {
          head: 'State',
          facts: [fact('State', ({ state }) => state), fact('Why', ({ stateReason }) => stateReason)],
          bare: true,
          cell: (booking) => (
            <>
              {booking.movedTo && <>{booking.state}, went to </>}
              <BookingState booking={booking} day={day} />
            </>
          ),
        },
        ...(canChange
          ? [
              {
                head: 'Do',
                facts: [],
                bare: true,
                className: 'no-print',
                cell: (booking: Booking) => (
                  <span className="row-buttons">
                    <BookingActions booking={booking} day={day} />
                  </span>
                ),
              },
            ]
          : []),
      ]}
    />
  )
}

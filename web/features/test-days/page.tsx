import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Booking } from '#contract/test-days/test-days.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { bookingsQuery } from '../../api/test-days/bookings.ts'
import { testDayQuery } from '../../api/test-days/test-days.ts'
import { useMay } from '../../api/use-may.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { today as todayIn } from '../../words/today.ts'
import { BookForm } from './book-form.tsx'
import { CallOffDialog } from './call-off-dialog.tsx'
import { ChangeForm } from './change-form.tsx'
import { formatTestDay } from './format-test-days.ts'
import { LooseBookings } from './loose-bookings.tsx'
import { SlotForm } from './slot-form.tsx'
import { SlotTable } from './slot-table.tsx'

/** Of a day called off the booking that its slot shows: the first found in it. */
const inItsSlot = (bookings: readonly Booking[], { slotId }: Booking): Booking | undefined =>
  slotId === null ? undefined : bookings.find((other) => other.slotId === slotId)

/** One test day: its slots by time and grader, who is booked in them, and what can be done about it. */
export default function TestDayPage({ id }: { id: string }) {
  const day = useQuery(testDayQuery(id))
  const bookings = useQuery(bookingsQuery({ testDayId: id, state: 'all' }))
  const standards = useQuery(standardsQuery).data ?? []
  const units = useQuery(unitsQuery).data ?? []
  const mayPlan = useMay('plan-test-days')
  const [calling, setCalling] = useState(false)
  const data = day.data
  const today = todayIn(data?.zone)
  const isOpen = data !== undefined && data.calledOff === null
  const canChange = mayPlan && isOpen
  const loose = bookings.data?.filter((one) =>
    isOpen ? one.slotId === null || one.state === 'cancelled' : one !== inItsSlot(bookings.data, one),
  )
  return (
    <Page
      title="Test day"
      answer={data && formatTestDay(data, today)}
      why={
        data &&
        (data.calledOff
          ? `Reason: ${data.calledOff.reason}`
          : [data.place, fullUnitName(units, data.unitId), `times of ${data.zone.replaceAll('_', ' ')}`]
              .filter(Boolean)
              .join(' · '))
      }
      error={data ? null : day.error}
      onRetry={day.refetch}
      controls={
        data && (
          <>
            <Link className="button" href={addressTo(paths.line, { id })}>
              On the line
            </Link>
            {canChange && data.freeSlots > 0 && (
              <Link className="button button-main" href={addressTo(paths.retests, { book: id })}>
                Book from the backlog
              </Link>
            )}
            {canChange && <Button onClick={() => setCalling(true)}>Call the day off</Button>}
          </>
        )
      }
    >
      {data && (
        <>
          <Section
            title={isOpen ? 'Slots' : 'Slots as they were planned'}
            note={isOpen ? 'by time and grader' : 'by time and grader, with where each candidate went'}
          >
            <SlotTable day={data} bookings={bookings.data ?? []} standards={standards} canChange={canChange} />
          </Section>
          {loose && loose.length > 0 && (
            <Section title="In no slot" note="waiting for one, or cancelled">
              <LooseBookings day={data} bookings={loose} standards={standards} canChange={canChange} />
            </Section>
          )}
          {canChange && (
            <>
              <Section title="Book a candidate" note="for a first test, or any other" className="no-print">
                <BookForm day={data} standards={standards} />
              </Section>
              <Section title="Make slots" className="no-print">
                <SlotForm testDayId={id} />
              </Section>
              <Section title="Place and day" note="while nothing took place" className="no-print">
                <ChangeForm day={data} />
              </Section>
            </>
          )}
          <p className="caution">
            Medical help is planned for, and unit procedure and the safety officer come before anything on this page.
          </p>
          {calling && <CallOffDialog day={data} onClose={() => setCalling(false)} />}
        </>
      )}
    </Page>
  )
}

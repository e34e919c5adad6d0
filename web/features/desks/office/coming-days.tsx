import { Link } from 'wouter'
import type { TestDay } from '#contract/test-days/test-days.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { figure } from '../../../words/format-number.ts'

const DAYS_SHOWN = 8

/** The next test days with their slots, and the way to fill those that are free. */
export function ComingDays({ coming, today }: { coming: readonly TestDay[]; today: string }) {
  if (coming.length === 0) {
    return (
      <Empty>
        No test day is planned. <Link href={paths.testDays}>Plan one</Link>, make its slots, and book the backlog.
      </Empty>
    )
  }
  return (
    <Table
      caption="Test days ahead"
      rows={coming.slice(0, DAYS_SHOWN)}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Day',
          tight: true,
          cell: ({ id, on }) => (
            <Link href={addressTo(paths.testDay, { id })}>
              <b>{formatDay(on, today)}</b>
            </Link>
          ),
        },
        { head: 'Place', bare: true, cell: ({ place }) => <bdi>{place}</bdi> },
        { head: 'Slots', numeric: true, cell: ({ slots }) => figure(slots) },
        { head: 'Booked', numeric: true, cell: ({ bookings }) => figure(bookings) },
        {
          head: 'Free',
          numeric: true,
          cell: ({ id, freeSlots }) =>
            freeSlots === 0 ? (
              'none'
            ) : (
              <Link href={addressTo(paths.retests, { book: id })}>{figure(freeSlots)} to fill</Link>
            ),
        },
      ]}
    />
  )
}

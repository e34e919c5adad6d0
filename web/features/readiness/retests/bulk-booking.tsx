import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Retest } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { BulkBooking as Booked, PlannedBooking } from '#contract/test-days/bookings.ts'
import type { TestDay } from '#contract/test-days/test-days.ts'
import { bookInBulk, bookingPlanQuery } from '../../../api/test-days/bookings.ts'
import { standardTitle } from '../../../domain/standards/titles.ts'
import { formatConflict } from '../../../domain/test-days/format-conflict.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { capital, counted, countedInWords, plural } from '../../../words/format-number.ts'
import { formatTime } from '../../../words/format-time.ts'
import './retests.css'

interface BulkBookingProps {
  chosen: readonly Retest[]
  days: readonly TestDay[]
  standards: readonly Standard[]
  testDayId: string
  onTestDay: (id: string) => void
  onBooked: () => void
  zone: string | null
  today: string
}

/** Books the chosen retests on a test day: shows first who would get which slot, with what conflicts, then what was done. */
export function BulkBooking({
  chosen,
  days,
  standards,
  testDayId,
  onTestDay,
  onBooked,
  zone,
  today,
}: BulkBookingProps) {
  const client = useQueryClient()
  /** What was ticked or unticked by hand. */
  const [ticks, setTicks] = useState<Readonly<Record<string, boolean>>>({})
  const unique = [...new Map(chosen.map((one) => [`${one.soldierId} ${one.standard}`, one])).values()]
  const wanted = unique.map(({ soldierId, standard }) => ({ candidateId: soldierId, standard }))
  const plan = useQuery(bookingPlanQuery(testDayId ? [testDayId] : [], wanted))
  const items = plan.data?.items ?? []
  const isTicked = (one: PlannedBooking) => one.slotId !== null && (ticks[keyOf(one)] ?? isClear(one))
  const wantedNow = items.filter(isTicked)
  const unticked = items.filter((one) => one.slotId !== null && !isClear(one)).length
  const book = useMutation({
    mutationFn: () =>
      bookInBulk({
        bookings: wantedNow.map(({ candidateId, standard, slotId }) => ({ candidateId, standard, slotId: slotId! })),
        whatFits: false,
      }),
    onSuccess: async () => {
      setTicks({})
      onBooked()
      await client.invalidateQueries()
    },
    onError: () => client.invalidateQueries({ queryKey: ['bookings', 'plan'] }),
  })
  return (
    <Section title="Book the chosen" note={counted(unique.length, 'test')} className="no-print">
      <SelectField
        className="book-day"
        label="Test day"
        value={testDayId}
        onChange={(event) => onTestDay(event.target.value)}
      >
        <option value="">Choose one</option>
        {days.map(({ id, on, place, freeSlots }) => (
          <option key={id} value={id}>
            {formatDay(on, today)}
            {place ? `, ${place}` : ''}: {freeSlots} free
          </option>
        ))}
      </SelectField>
      {book.data && unique.length === 0 && (
        <Done booked={book.data} day={days.find(({ id }) => id === testDayId)} today={today} />
      )}
      {plan.error && <Failure error={plan.error} onRetry={plan.refetch} />}
      {testDayId && unique.length === 0 && !book.data && <Notice>Choose retests in the list below.</Notice>}
      {items.length > 0 && (
        <>
          <ProposedBookings
            items={items}
            isTicked={isTicked}
            onTick={(one, on) => setTicks({ ...ticks, [keyOf(one)]: on })}
            standards={standards}
            zone={zone}
            today={today}
          />
          <p className="book-button">
            <Button kind="main" onClick={() => book.mutate()} disabled={book.isPending || wantedNow.length === 0}>
              Book {counted(wantedNow.length, 'test')}
            </Button>{' '}
            {unticked > 0 && (
              <span className="muted">
                {capital(countedInWords(unticked, 'row'))} with a conflict {plural(unticked, 'is', 'are')} ticked only
                if you tick {plural(unticked, 'it', 'them')}.
              </span>
            )}
          </p>
        </>
      )}
      {book.error && <Failure error={book.error} />}
    </Section>
  )
}

const keyOf = (one: Pick<PlannedBooking, 'candidateId' | 'standard'>) => `${one.candidateId} ${one.standard}`

/** Booked over by hand only: what would be held, and slots that nobody needs. */
const DOUBTFUL = ['booked-elsewhere', 'not-needed']

const isClear = ({ conflicts }: PlannedBooking): boolean =>
  conflicts.every(({ weight, rule }) => weight === 'warns' && !DOUBTFUL.includes(rule))

interface ProposedBookingsProps extends Pick<BulkBookingProps, 'standards' | 'zone' | 'today'> {
  items: readonly PlannedBooking[]
  isTicked: (one: PlannedBooking) => boolean
  onTick: (one: PlannedBooking, on: boolean) => void
}

function ProposedBookings({ items, isTicked, onTick, standards, zone, today }: ProposedBookingsProps) {
  return (
    <Table<PlannedBooking>
      caption="Proposed bookings"
      rows={items}
      rowKey={keyOf}
      columns={[
        {
          head: 'Candidate',
          cell: (one) => (
            <label className="tick">
              <input
                type="checkbox"
                disabled={one.slotId === null}
                checked={isTicked(one)}
                onChange={(event) => onTick(one, event.target.checked)}
              />
              <b>
                <bdi>{one.candidateName}</bdi>
              </b>
            </label>
          ),
        },
        { head: 'Standard', bare: true, cell: ({ standard }) => standardTitle(standards, standard) },
        {
          head: 'Slot',
          tight: true,
          cell: ({ startsAt, graderName }) =>
            startsAt ? `${formatTime(startsAt, zone)}${graderName ? `, ${graderName}` : ''}` : 'none',
        },
        {
          head: 'Problems',
          cell: ({ conflicts, slotId }) =>
            conflicts.length > 0 ? (
              <ul className="conflicts">
                {conflicts.map((one) => (
                  <li key={one.rule}>{formatConflict(one, today)}</li>
                ))}
              </ul>
            ) : slotId ? (
              'none'
            ) : (
              'no slot is left on this day'
            ),
        },
      ]}
    />
  )
}

function Done({ booked, day, today }: { booked: Booked; day: TestDay | undefined; today: string }) {
  const count = booked.booked.length
  return (
    <Notice kind="good">
      <b>
        {capital(countedInWords(count, 'test'))} booked
        {day && ` for ${formatDay(day.on, today)}${day.place ? `, ${day.place}` : ''}`}.
      </b>{' '}
      Candidates, sponsors and graders are told.{' '}
      {day && <Link href={addressTo(paths.testDay, { id: day.id })}>See the test day</Link>}
    </Notice>
  )
}

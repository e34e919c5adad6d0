import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Retest } from '#contract/standards/certifications.ts'
import type { PlannedBooking } from '#contract/test-days/bookings.ts'
import type { TestDay } from '#contract/test-days/test-days.ts'
import { bookInBulk, bookingPlanQuery } from '../../../api/test-days/bookings.ts'
import { sayConflict } from '../../../domain/test-days/say-conflict.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { sayDay } from '../../../words/say-day.ts'
import { counted } from '../../../words/say-number.ts'
import { sayTime } from '../../../words/say-time.ts'
import './retests.css'

interface BulkBookingProps {
  chosen: readonly Retest[]
  days: readonly TestDay[]
  testDayId: string
  onTestDay: (id: string) => void
  onBooked: () => void
  zone: string | null
  today: string
}

/** Books the chosen retests on a test day: shows first who would get which slot and what is in the way. */
export function BulkBooking({ chosen, days, testDayId, onTestDay, onBooked, zone, today }: BulkBookingProps) {
  const client = useQueryClient()
  const [left, setLeft] = useState<readonly string[]>([])
  const unique = [...new Map(chosen.map((one) => [`${one.soldierId} ${one.standard}`, one])).values()]
  const wanted = unique.map(({ soldierId, standard }) => ({ candidateId: soldierId, standard }))
  const plan = useQuery(bookingPlanQuery(testDayId ? [testDayId] : [], wanted))
  const items = plan.data?.items ?? []
  const keyOf = (one: PlannedBooking) => `${one.candidateId} ${one.standard}`
  const booked = items.filter((one) => one.slotId !== null && !left.includes(keyOf(one)))
  const book = useMutation({
    mutationFn: () =>
      bookInBulk({
        bookings: booked.map(({ candidateId, standard, slotId }) => ({ candidateId, standard, slotId: slotId! })),
        whatFits: false,
      }),
    onSuccess: async () => {
      await client.invalidateQueries()
      onBooked()
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
            {sayDay(on, today)}
            {place ? `, ${place}` : ''}: {freeSlots} free
          </option>
        ))}
      </SelectField>
      {plan.error && <Failure error={plan.error} onRetry={plan.refetch} />}
      {testDayId && unique.length === 0 && <Notice>Choose retests in the list below.</Notice>}
      {items.length > 0 && (
        <>
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
                      checked={one.slotId !== null && !left.includes(keyOf(one))}
                      onChange={(event) =>
                        setLeft(event.target.checked ? left.filter((key) => key !== keyOf(one)) : [...left, keyOf(one)])
                      }
                    />
                    <b>
                      <bdi>{one.candidateName}</bdi>
                    </b>
                  </label>
                ),
              },
              {
                head: 'Slot',
                tight: true,
                cell: ({ startsAt, graderName }) =>
                  startsAt ? `${sayTime(startsAt, zone)}${graderName ? `, ${graderName}` : ''}` : 'none',
              },
              {
                head: 'Problems',
                cell: ({ conflicts, slotId }) =>
                  conflicts.length > 0 ? (
                    <ul className="conflicts">
                      {conflicts.map((one) => (
                        <li key={one.rule}>{sayConflict(one, today)}</li>
                      ))}
                    </ul>
                  ) : slotId ? (
                    'nothing'
                  ) : (
                    'no slot is left'
                  ),
              },
            ]}
          />
          <p className="book-button">
            <Button kind="main" onClick={() => book.mutate()} disabled={book.isPending || booked.length === 0}>
              Book {counted(booked.length, 'test')}
            </Button>
          </p>
        </>
      )}
      {book.error && <Failure error={book.error} />}
    </Section>
  )
}

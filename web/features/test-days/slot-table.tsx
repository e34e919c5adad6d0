import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import type { Booking, Slot, TestDayDetail } from '#contract/test-days/test-days.ts'
import { useForecasts } from '../../api/ability/use-forecasts.ts'
import { changeSlotGrader, removeSlot } from '../../api/test-days/test-days.ts'
import { standardTitle } from '../../domain/standards/titles.ts'
import { Chance } from '../../parts/ability/chance.tsx'
import { dayFact, fact, momentFact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Table } from '../../ui/table.tsx'
import { formatTime } from '../../words/format-time.ts'
import { BookingActions } from './booking-actions.tsx'
import { BookingState } from './booking-state.tsx'
import { PersonField } from './slot-form.tsx'

interface SlotTableProps {
  day: TestDayDetail
  bookings: readonly Booking[]
  standards: readonly Standard[]
  canChange: boolean
}

const isAhead = ({ state }: Booking): boolean => state === 'booked' || state === 'checked in'

/** The slots of a day in order of time: grader, who is booked, and how that went; of one called off, where they went. */
export function SlotTable({ day, bookings, standards, canChange }: SlotTableProps) {
  const client = useQueryClient()
  const [changing, setChanging] = useState<Slot | null>(null)
  const ahead = bookings.filter(isAhead)
  const forecastOf = useForecasts(ahead.map(({ candidateId: soldierId, standard }) => ({ soldierId, standard })))
  const drop = useMutation({
    mutationFn: removeSlot,
    onSuccess: () => client.invalidateQueries({ queryKey: ['test-days'] }),
  })
  if (day.slotList.length === 0) {
    return <Empty>No slots yet. Make them below: from, to, minutes each, and who grades.</Empty>
  }
  const now = Date.now()
  const isOff = day.calledOff !== null
  const bookingIn = (slot: Slot) =>
    bookings.find(({ id, slotId }) => (isOff ? slotId === slot.id : id === slot.bookingId))
  const empty = (slot: Slot) => (isOff ? 'nobody' : Date.parse(slot.startsAt) <= now ? 'begun, nobody' : 'free')
  const time = (slot: Slot) => `${formatTime(slot.startsAt, day.zone)}–${formatTime(slot.endsAt, day.zone)}`
  return (
    <>
      {drop.error && <Failure error={drop.error} />}
      <Table<Slot>
        caption="Slots"
        rows={day.slotList}
        rowKey={({ id }) => id}
        columns={[
          {
            head: 'Time',
            facts: [momentFact('Starts', ({ startsAt }) => startsAt), momentFact('Ends', ({ endsAt }) => endsAt)],
            tight: true,
            cell: (slot) => <b>{time(slot)}</b>,
          },
          { head: 'Grader', cell: ({ graderName }) => (graderName ? <bdi>{graderName}</bdi> : 'not said yet') },
          {
            head: 'Candidate',
            cell: (slot) => {
              const booking = bookingIn(slot)
              if (!booking) return slot.taken ? <span className="muted">somebody of another unit</span> : empty(slot)
              return (
                <Link href={addressTo(paths.candidate, { id: booking.candidateId, standard: booking.standard })}>
                  <b>
                    <bdi>{booking.candidateName}</bdi>
                  </b>
                </Link>
              )
            },
          },
          {
            head: 'Standard',
            bare: true,
            cell: (slot) => standardTitle(standards, bookingIn(slot)?.standard ?? ''),
          },
          ...(ahead.some(({ candidateId, standard }) => forecastOf(candidateId, standard))
            ? [
                {
                  head: 'Such candidates pass',
                  facts: [],
                  cell: (slot: Slot) => {
                    const booking = bookingIn(slot)
                    return booking && isAhead(booking) ? (
                      <Chance forecast={forecastOf(booking.candidateId, booking.standard)} />
                    ) : null
                  },
                },
              ]
            : []),
          {
            head: isOff ? 'Went to' : 'State',
            facts: [
              fact('State', (slot) => bookingIn(slot)?.state),
              fact('Why', (slot) => bookingIn(slot)?.stateReason),
              dayFact('Went to', (slot) => bookingIn(slot)?.movedTo?.on),
            ],
            bare: !isOff,
            cell: (slot) => {
              const booking = bookingIn(slot)
              return booking && <BookingState booking={booking} day={day} />
            },
          },
          ...(canChange
            ? [
                {
                  head: 'Do',
                  facts: [],
                  bare: true,
                  className: 'no-print',
                  cell: (slot: Slot) => {
                    const booking = bookingIn(slot)
                    return (
                      <span className="row-buttons">
                        {booking?.state !== 'tested' && (
                          <Button kind="quiet" onClick={() => setChanging(slot)}>
                            Grader<span className="out-of-sight"> of {time(slot)}</span>
                          </Button>
                        )}
                        {booking && <BookingActions booking={booking} day={day} />}
                        {!slot.taken && (
                          <Button kind="quiet" onClick={() => drop.mutate(slot.id)}>
                            Remove<span className="out-of-sight"> the slot {time(slot)}</span>
                          </Button>
                        )}
                      </span>
                    )
                  },
                },
              ]
            : []),
        ]}
      />
      {changing && <GraderDialog slot={changing} time={time(changing)} onClose={() => setChanging(null)} />}
    </>
  )
}

function GraderDialog({ slot, time, onClose }: { slot: Slot; time: string; onClose: () => void }) {
  const client = useQueryClient()
  const [grader, setGrader] = useState<{ id: string; name: string } | null>(null)
  return (
    <ConfirmDialog
      title={`Who grades at ${time}?`}
      confirm={grader ? `Let ${grader.name} grade` : 'Leave it unsaid'}
      onConfirm={async () => {
        await changeSlotGrader(slot.id, grader?.id ?? null)
        await client.invalidateQueries()
      }}
      onClose={onClose}
    >
      <p>
        {slot.graderName ? `So far ${slot.graderName}.` : 'So far nobody.'} Whoever is booked in the slot is told, and
        only the new grader sees the candidate.
      </p>
      <PersonField label="Grader" onPick={setGrader} />
      {grader && (
        <p>
          Chosen: <b>{grader.name}</b>
        </p>
      )}
    </ConfirmDialog>
  )
}

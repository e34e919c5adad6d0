import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import type { Booking, Slot, TestDayDetail } from '#contract/test-days/test-days.ts'
import { useForecasts } from '../../api/ability/use-forecasts.ts'
import { changeSlotGrader, removeSlot } from '../../api/test-days/test-days.ts'
import type { ForecastOf } from '../../domain/ability/format-forecast.ts'
import { standardTitle } from '../../domain/standards/titles.ts'
import { Chance } from '../../parts/ability/chance.tsx'
import { dayFact, fact, momentFact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { type Column, Table } from '../../ui/table.tsx'
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

interface BookedSlot extends Slot {
  /** From when to when, by the clock of the day. */
  time: string
  booking: Booking | undefined
}

const isAhead = ({ state }: Booking): boolean => state === 'booked' || state === 'checked in'

/** The slots of a day in order of time: grader, who is booked, and how that went; of one called off, where they went. */
export function SlotTable({ day, bookings, standards, canChange }: SlotTableProps) {
  const client = useQueryClient()
  const [changing, setChanging] = useState<BookedSlot | null>(null)
  const ahead = bookings.filter(isAhead)
  const forecastOf = useForecasts(ahead.map(({ candidateId: soldierId, standard }) => ({ soldierId, standard })))
  const drop = useMutation({
    mutationFn: removeSlot,
    onSuccess: () => client.invalidateQueries({ queryKey: ['test-days'] }),
  })
  if (day.slotList.length === 0) {
    return <Empty>No slots yet. Make them below: from, to, minutes each, and who grades.</Empty>
  }
  const isOff = day.calledOff !== null
  const slots = day.slotList.map((slot) => ({
    ...slot,
    time: `${formatTime(slot.startsAt, day.zone)}–${formatTime(slot.endsAt, day.zone)}`,
    booking: bookings.find(({ id, slotId }) => (isOff ? slotId === slot.id : id === slot.bookingId)),
  }))
  return (
    <>
      {drop.error && <Failure error={drop.error} />}
      <Table<BookedSlot>
        caption="Slots"
        rows={slots}
        rowKey={({ id }) => id}
        columns={[
          {
            head: 'Time',
            facts: [momentFact('Starts', ({ startsAt }) => startsAt), momentFact('Ends', ({ endsAt }) => endsAt)],
            tight: true,
            cell: ({ time }) => <b>{time}</b>,
          },
          { head: 'Grader', cell: ({ graderName }) => (graderName ? <bdi>{graderName}</bdi> : 'not said yet') },
          {
            head: 'Candidate',
            cell: (slot) => <Candidate slot={slot} isOff={isOff} />,
          },
          {
            head: 'Standard',
            bare: true,
            cell: ({ booking }) => standardTitle(standards, booking?.standard ?? ''),
          },
          ...(ahead.some(({ candidateId, standard }) => forecastOf(candidateId, standard))
            ? [chanceColumn(forecastOf)]
            : []),
          {
            head: isOff ? 'Went to' : 'State',
            facts: [
              fact('State', ({ booking }) => booking?.state),
              fact('Why', ({ booking }) => booking?.stateReason),
              dayFact('Went to', ({ booking }) => booking?.movedTo?.on),
            ],
            bare: !isOff,
            cell: ({ booking }) => booking && <BookingState booking={booking} day={day} />,
          },
          ...(canChange
            ? [
                {
                  head: 'Do',
                  facts: [],
                  bare: true,
                  className: 'no-print',
                  cell: (slot: BookedSlot) => (
                    <Doing
                      slot={slot}
                      day={day}
                      onGrader={() => setChanging(slot)}
                      onRemove={() => drop.mutate(slot.id)}
                    />
                  ),
                },
              ]
            : []),
        ]}
      />
      {changing && <GraderDialog slot={changing} onClose={() => setChanging(null)} />}
    </>
  )
}

const chanceColumn = (forecastOf: ForecastOf): Column<BookedSlot> => ({
  head: 'Such candidates pass',
  facts: [],
  cell: ({ booking }) =>
    booking && isAhead(booking) ? <Chance forecast={forecastOf(booking.candidateId, booking.standard)} /> : null,
})

function Candidate({ slot: { booking, taken, startsAt }, isOff }: { slot: BookedSlot; isOff: boolean }) {
  if (!booking) {
    if (taken) return <span className="muted">somebody of another unit</span>
    return isOff ? 'nobody' : Date.parse(startsAt) <= Date.now() ? 'begun, nobody' : 'free'
  }
  return (
    <Link href={addressTo(paths.candidate, { id: booking.candidateId, standard: booking.standard })}>
      <b>
        <bdi>{booking.candidateName}</bdi>
      </b>
    </Link>
  )
}

interface DoingProps {
  slot: BookedSlot
  day: TestDayDetail
  onGrader: () => void
  onRemove: () => void
}

function Doing({ slot: { booking, taken, time }, day, onGrader, onRemove }: DoingProps) {
  return (
    <span className="row-buttons">
      {booking?.state !== 'tested' && (
        <Button kind="quiet" onClick={onGrader}>
          Grader<span className="out-of-sight"> of {time}</span>
        </Button>
      )}
      {booking && <BookingActions booking={booking} day={day} />}
      {!taken && (
        <Button kind="quiet" onClick={onRemove}>
          Remove<span className="out-of-sight"> the slot {time}</span>
        </Button>
      )}
    </span>
  )
}

function GraderDialog({ slot, onClose }: { slot: BookedSlot; onClose: () => void }) {
  const client = useQueryClient()
  const [grader, setGrader] = useState<{ id: string; name: string } | null>(null)
  return (
    <ConfirmDialog
      title={`Who grades at ${slot.time}?`}
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

import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { BookingConflict } from '#contract/test-days/bookings.ts'
import type { Booking, TestDayDetail } from '#contract/test-days/test-days.ts'
import { cancelBooking, markBooking, moveBooking } from '../../api/test-days/bookings.ts'
import { freeSlotsQuery } from '../../api/test-days/slots.ts'
import { formatConflict } from '../../domain/test-days/format-conflict.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { formatDay } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'

interface DialogProps {
  booking: Booking
  day: TestDayDetail
  onClose: () => void
}

type Doing = 'move' | 'cancel' | 'mark'
const MARKS = ['checked in', 'tested', 'no-show', 'excused', 'turned away', 'booked'] as const

/** What the office can do about a booking that no sheet has settled: move it, mark how it went, cancel it. */
export function BookingActions({ booking, day }: { booking: Booking; day: TestDayDetail }) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const [moved, setMoved] = useState<readonly BookingConflict[]>([])
  if (booking.sheetId !== null || booking.state === 'cancelled') return null
  const button = (what: Doing, text: string) => (
    <Button kind="quiet" onClick={() => setDoing(what)}>
      {text}
      <span className="out-of-sight"> {booking.candidateName}</span>
    </Button>
  )
  const close = () => setDoing(null)
  return (
    <>
      {booking.state === 'booked' && button('move', 'Move')}
      {button('mark', 'Mark')}
      {button('cancel', 'Cancel')}
      {doing === 'move' && <MoveDialog booking={booking} day={day} onMoved={setMoved} onClose={close} />}
      {moved.length > 0 && <MovedDialog booking={booking} day={day} conflicts={moved} onClose={() => setMoved([])} />}
      {doing === 'mark' && <MarkDialog booking={booking} onClose={close} />}
      {doing === 'cancel' && <CancelDialog booking={booking} onClose={close} />}
    </>
  )
}

function CancelDialog({ booking, onClose }: { booking: Booking; onClose: () => void }) {
  const client = useQueryClient()
  const [reason, setReason] = useState('')
  return (
    <ConfirmDialog
      title={`Cancel the booking of ${booking.candidateName}?`}
      confirm="Cancel the booking"
      onConfirm={async () => {
        await cancelBooking(booking.id, reason.trim())
        await client.invalidateQueries()
      }}
      onClose={onClose}
    >
      <p>The slot is free again. Candidate, sponsor and grader are told, without the reason.</p>
      <TextField label="Reason" required value={reason} onChange={(event) => setReason(event.target.value)} />
    </ConfirmDialog>
  )
}

function MarkDialog({ booking, onClose }: { booking: Booking; onClose: () => void }) {
  const client = useQueryClient()
  const [state, setState] = useState<(typeof MARKS)[number]>('no-show')
  const [reason, setReason] = useState('')
  const isThere = state === 'checked in'
  return (
    <ConfirmDialog
      title={`How did it go with ${booking.candidateName}?`}
      confirm="Save the mark"
      onConfirm={async () => {
        await markBooking(booking.id, { state, reason: reason.trim() || null, found: null })
        await client.invalidateQueries()
      }}
      onClose={onClose}
    >
      <p>A sheet of that day marks the booking tested by itself.</p>
      <SelectField
        label="State"
        value={state}
        onChange={(event) => setState(event.target.value as (typeof MARKS)[number])}
      >
        {MARKS.filter((mark) => mark !== booking.state).map((mark) => (
          <option key={mark} value={mark}>
            {mark === 'booked' ? 'booked, nothing yet' : mark}
          </option>
        ))}
      </SelectField>
      <TextField
        label={isThere ? 'Reason, if there is one' : 'Reason'}
        required={!isThere}
        value={reason}
        onChange={(event) => setReason(event.target.value)}
      />
    </ConfirmDialog>
  )
}

/** What a booking that was just moved conflicts with; the lists follow once it is read, for it may have left them. */
function MovedDialog({ booking, day, conflicts, onClose }: DialogProps & { conflicts: readonly BookingConflict[] }) {
  const client = useQueryClient()
  const close = () => {
    onClose()
    return client.invalidateQueries()
  }
  return (
    <ConfirmDialog
      title={`${booking.candidateName} is moved, with conflicts`}
      confirm="Keep it so"
      leave={null}
      onConfirm={async () => {}}
      onClose={close}
    >
      <ul className="conflict-list">
        {conflicts.map((one) => (
          <li key={one.rule}>{formatConflict(one, day.on)}</li>
        ))}
      </ul>
    </ConfirmDialog>
  )
}

function MoveDialog({ booking, day, onMoved, onClose }: DialogProps & { onMoved: (list: BookingConflict[]) => void }) {
  const client = useQueryClient()
  const free = useQuery(freeSlotsQuery({ from: day.on })).data ?? []
  const [slotId, setSlotId] = useState('')
  const chosen = free.find(({ id }) => id === slotId)
  return (
    <ConfirmDialog
      title={`Move ${booking.candidateName}?`}
      confirm={chosen ? 'Move the booking' : 'Take it out of its slot'}
      onConfirm={async () => {
        const to = { testDayId: chosen?.testDayId ?? day.id, slotId: chosen?.id ?? null }
        const { conflicts } = await moveBooking(booking.id, { ...to, reason: null })
        if (conflicts.length > 0) onMoved(conflicts)
        else await client.invalidateQueries()
      }}
      onClose={onClose}
    >
      <p>
        Candidate, sponsor and graders are told. What cannot be booked is refused and nothing changes; other conflicts
        are shown after it.
      </p>
      <SelectField label="To" value={slotId} onChange={(event) => setSlotId(event.target.value)}>
        <option value="">no slot, waiting on this day</option>
        {free.map((slot) => (
          <option key={slot.id} value={slot.id}>
            {formatDay(slot.on, day.on)}, {formatTime(slot.startsAt, day.zone)}
            {slot.graderName ? `, ${slot.graderName}` : ''}
          </option>
        ))}
      </SelectField>
    </ConfirmDialog>
  )
}

import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { TestDayDetail } from '#contract/test-days/test-days.ts'
import { callOff, callOffPlanQuery } from '../../api/test-days/test-days.ts'
import { formatConflict } from '../../domain/test-days/format-conflict.ts'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { formatDay } from '../../words/format-day.ts'
import { counted, plural } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'
import { today as todayIn } from '../../words/today.ts'

/** Calls a whole test day off in one step; shows first where everybody goes. */
export function CallOffDialog({ day, onClose }: { day: TestDayDetail; onClose: () => void }) {
  const client = useQueryClient()
  const plan = useQuery(callOffPlanQuery(day.id))
  const [reason, setReason] = useState('')
  const items = plan.data?.items
  const today = todayIn(day.zone)
  const placed = items?.filter(({ slotId }) => slotId !== null) ?? []
  const unplaced = items?.filter(({ slotId }) => slotId === null) ?? []
  const spared = unplaced.filter(({ conflicts }) => conflicts.some(({ weight }) => weight === 'warns'))
  const left = unplaced.filter((one) => !spared.includes(one))
  return (
    <ConfirmDialog
      title="Call this test day off?"
      confirm={placed.length > 0 ? `Call it off and rebook ${placed.length}` : 'Call it off'}
      onConfirm={async () => {
        if (!items) throw new Error('Wait until it is worked out where everybody goes.')
        const moves = placed.map(({ bookingId, slotId }) => ({ bookingId: bookingId!, slotId: slotId! }))
        await callOff(day.id, { reason: reason.trim(), moves })
        await client.invalidateQueries()
      }}
      onClose={onClose}
    >
      {plan.error && <Failure error={plan.error} onRetry={plan.refetch} />}
      {!items && !plan.error && <p>Working out where everybody goes.</p>}
      {items && (
        <>
          <p>
            {items.length === 0
              ? 'Nobody is booked.'
              : `Of ${counted(items.length, 'booking')}, ${placed.length} ${plural(placed.length, 'goes', 'go')} to the next free slots${left.length > 0 ? ` and ${left.length} back to the backlog` : ''}${spared.length > 0 ? `; ${spared.length} ${plural(spared.length, 'needs', 'need')} no other` : ''}.`}{' '}
            It cannot be undone; candidates, sponsors, graders and leaders are told.
          </p>
          {placed.length > 0 && (
            <ul>
              {placed.map((one) => (
                <li key={one.bookingId}>
                  <bdi>{one.candidateName}</bdi>: {formatDay(one.on!, day.on)}, {formatTime(one.startsAt!, day.zone)}
                  {one.conflicts.length > 0 && (
                    <span className="muted small">
                      {' '}
                      {one.conflicts.map((each) => formatConflict(each, today)).join(' ')}
                    </span>
                  )}
                </li>
              ))}
            </ul>
          )}
          {left.length > 0 && (
            <p>
              Back to the backlog, since no slot that fits is free: {left.map((one) => one.candidateName).join('; ')}.
            </p>
          )}
          {spared.length > 0 && (
            <ul>
              {spared.map((one) => (
                <li key={one.bookingId}>
                  <bdi>{one.candidateName}</bdi> gets no other slot.{' '}
                  <span className="muted small">
                    {one.conflicts.map((each) => formatConflict(each, today)).join(' ')}
                  </span>
                </li>
              ))}
            </ul>
          )}
        </>
      )}
      <TextField label="Reason" required value={reason} onChange={(event) => setReason(event.target.value)} />
    </ConfirmDialog>
  )
}

import { useState } from 'react'
import type { LineBooking } from '#contract/test-days/running-tests.ts'
import { setSecondGrader } from '../../api/test-days/bookings.ts'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { PersonField } from './slot-form.tsx'

interface SecondGraderDialogProps {
  booking: Pick<LineBooking, 'id' | 'candidate' | 'secondGrader'>
  onDone: () => Promise<unknown>
  onClose: () => void
}

/** Says who grades the same attempt independently of the first grader, or that nobody does. */
export function SecondGraderDialog({ booking, onDone, onClose }: SecondGraderDialogProps) {
  const [grader, setGrader] = useState<{ id: string; name: string } | null>(null)
  return (
    <ConfirmDialog
      title={`A second grader for ${booking.candidate}?`}
      confirm={grader ? `Let ${grader.name} grade as well` : 'No second grader'}
      onConfirm={async () => {
        await setSecondGrader(booking.id, grader?.id ?? null)
        await onDone()
      }}
      onClose={onClose}
    >
      <p>
        {booking.secondGrader ? `So far ${booking.secondGrader}.` : 'So far nobody.'} Both grade the same attempt; the
        first one’s sheet counts. Neither sees the other’s marks before both are in, and you are told where they differ.
      </p>
      <PersonField label="Second grader" onPick={setGrader} />
      {grader && (
        <p>
          Chosen: <b>{grader.name}</b>
        </p>
      )}
    </ConfirmDialog>
  )
}

import { useState } from 'react'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Field } from '../../ui/field.tsx'
import { formatDayInFull } from '../../words/format-day.ts'
import { countedInWords } from '../../words/format-number.ts'

interface CancelDialogProps {
  ceremony: CeremonyDetail
  today: string
  onCancel: (reason: string) => Promise<unknown>
  onClose: () => void
}

/** Asks for the reason before a ceremony is called off, and says what that does. */
export function CancelDialog({ ceremony, today, onCancel, onClose }: CancelDialogProps) {
  const [reason, setReason] = useState('')
  const named = ceremony.formation.filter(({ soldier, otherUnit }) => soldier !== null || otherUnit).length
  return (
    <ConfirmDialog
      title={`Call off ${ceremony.title}?`}
      confirm="Call it off"
      onConfirm={() => onCancel(reason.trim())}
      onClose={onClose}
    >
      <p>
        It does not take place on {formatDayInFull(ceremony.day, today)}. Its rehearsals fall away, and{' '}
        {countedInWords(named, 'soldier')} named and {countedInWords(ceremony.alternates.length, 'alternate')} are free
        at that time. This cannot be undone; the plan can be copied as a new one.
      </p>
      <Field label="Why">
        {(id) => (
          <textarea
            id={id}
            required
            maxLength={4000}
            rows={2}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        )}
      </Field>
    </ConfirmDialog>
  )
}

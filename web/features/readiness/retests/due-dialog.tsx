import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Retest } from '#contract/standards/certifications.ts'
import { moveDueDay } from '../../../api/readiness/retests.ts'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { TextField } from '../../../ui/field.tsx'
import { formatDayInFull } from '../../../words/format-day.ts'

/** Gives an open retest another due day, with a reason. */
export function DueDialog({ retest, today, onClose }: { retest: Retest; today: string; onClose: () => void }) {
  const client = useQueryClient()
  const [due, setDue] = useState(retest.due)
  const [reason, setReason] = useState('')
  const byRule = retest.dueMoved?.ruleDue ?? retest.due
  return (
    <ConfirmDialog
      title={`Move the due day of ${retest.grade} ${retest.name}?`}
      confirm="Move the due day"
      onConfirm={async () => {
        const { certification, standard } = retest
        await moveDueDay(retest.soldierId, { certification, standard, due, reason: reason.trim() })
        await client.invalidateQueries()
      }}
      onClose={onClose}
    >
      <p>
        By the rules it is due by {formatDayInFull(byRule, today)}, which stays on record. The new day holds until this
        retest is taken; candidate and sponsor are told.
      </p>
      <DateField label="Due by" value={due} onDay={setDue} />
      <TextField label="Reason" required value={reason} onChange={(event) => setReason(event.target.value)} />
    </ConfirmDialog>
  )
}

import { useState } from 'react'
import type { Suspension } from '#contract/readiness/suspensions.ts'
import type { LiftBody } from '#contract/soldiers/soldiers.ts'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Field } from '../../../ui/field.tsx'

interface LiftFormProps {
  suspension: Suspension
  today: string
  title: string
  onLift: (body: LiftBody) => Promise<void>
  onClose: () => void
}

/** Lifts a suspension from a day on, with a reason. */
export function LiftForm({ suspension, today, title, onLift, onClose }: LiftFormProps) {
  const [on, setOn] = useState(today > suspension.from ? today : suspension.from)
  const [reason, setReason] = useState('')
  const who = `${suspension.grade ?? ''} ${suspension.name}`.trim()
  const lift = async () => {
    if (reason.trim() === '') throw new Error('Say why first; the reason goes on record.')
    await onLift({ on, reason: reason.trim() })
  }
  return (
    <ConfirmDialog title={`Lift the suspension of ${who}?`} confirm="Lift it" onConfirm={lift} onClose={onClose}>
      <p>
        From the day given on <bdi>{who}</bdi> may stand again by the certification {title}, as long as it is valid. A
        lifted suspension stays on record and cannot be taken up again; suspend anew if need be.
      </p>
      <DateField label="Lifted on" value={on} onDay={setOn} />
      <Field label="Reason">
        {(id) => <textarea id={id} rows={2} value={reason} onChange={(event) => setReason(event.target.value)} />}
      </Field>
    </ConfirmDialog>
  )
}

import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { addDays } from '#calendar/plain-date.ts'
import type { CommandersWords, ExtensionBody } from '#contract/readiness/commanders-words.ts'
import { extendCertification, invalidateStandings } from '../../api/readiness/commanders-words.ts'
import { listName } from '../../domain/soldiers/format-person.ts'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Field, SelectField, TextField } from '../../ui/field.tsx'
import { formatDayWithYear } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'
import type { Candidate } from './use-candidate.ts'

interface ExtendDialogProps {
  soldier: Candidate['soldier']
  extendable: CommandersWords['extendable'][number]
  title: string
  onClose: () => void
}

/** Adds days to a certification in force, with a reason, within what its terms allow. */
export function ExtendDialog({ soldier, extendable, title, onClose }: ExtendDialogProps) {
  const { certification, validThrough, daysLeft } = extendable
  const client = useQueryClient()
  const [days, setDays] = useState(Math.min(30, daysLeft))
  const [kind, setKind] = useState<ExtensionBody['kind']>('deployment')
  const [reason, setReason] = useState('')
  const extend = async () => {
    if (reason.trim() === '') throw new Error('Say why first; the reason goes on record.')
    await extendCertification({ soldierId: soldier.id, certification, days, kind, reason: reason.trim() })
    await invalidateStandings(client)
  }
  const isDays = Number.isInteger(days) && days >= 1 && days <= daysLeft
  return (
    <ConfirmDialog
      title={`Extend ${title} of ${listName(soldier)}?`}
      confirm="Extend it"
      onConfirm={extend}
      onClose={onClose}
    >
      <p>
        Valid through {formatDayWithYear(validThrough)}
        {isDays ? `; extended, through ${formatDayWithYear(addDays(validThrough, days))}` : ''}. The terms allow{' '}
        {counted(daysLeft, 'day')} more. A renewal by test has its own last day.
      </p>
      <TextField
        label="Days"
        type="number"
        required
        min={1}
        max={daysLeft}
        value={days}
        onChange={(event) => setDays(Number(event.target.value))}
      />
      <SelectField label="For" value={kind} onChange={(event) => setKind(event.target.value as ExtensionBody['kind'])}>
        <option value="deployment">Deployment</option>
        <option value="injury">Injury</option>
        <option value="other">Other</option>
      </SelectField>
      <Field label="Reason">
        {(id) => <textarea id={id} rows={2} value={reason} onChange={(event) => setReason(event.target.value)} />}
      </Field>
    </ConfirmDialog>
  )
}

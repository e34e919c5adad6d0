import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { SheetSummary } from '#contract/sheets/sheets.ts'
import { decideSheet, invalidateSheets } from '../../../api/sheets/sheets.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Field } from '../../../ui/field.tsx'
import { lasting } from './format-held.ts'

interface DecisionFormProps {
  sheet: SheetSummary
  onDecided: (decision: 'count' | 'reject') => void
}

/** Count or reject, always with a reason. */
export function DecisionForm({ sheet, onDecided }: DecisionFormProps) {
  const [reason, setReason] = useState('')
  const [missing, setMissing] = useState(false)
  const client = useQueryClient()
  const decide = useMutation({
    mutationFn: (decision: 'count' | 'reject') => decideSheet(sheet.id, { decision, reason: reason.trim() }),
    onSuccess: (_, decision) => {
      onDecided(decision)
      return invalidateSheets(client)
    },
  })
  const press = (decision: 'count' | 'reject') => {
    setMissing(reason.trim() === '')
    if (reason.trim() !== '') decide.mutate(decision)
  }
  const never = lasting(sheet)
  return (
    <div className="held-decision">
      <Field label="Reason, kept with the sheet" error={missing && reason.trim() === '' ? 'Say why first.' : null}>
        {(id, described) => (
          <textarea
            id={id}
            aria-describedby={described}
            aria-invalid={missing || undefined}
            rows={2}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        )}
      </Field>
      <div className="held-buttons">
        {!never && (
          <Button onClick={() => press('count')} disabled={decide.isPending}>
            Count it
          </Button>
        )}
        <Button onClick={() => press('reject')} disabled={decide.isPending}>
          Reject it
        </Button>
        {never && <p className="muted small">It cannot be counted as it stands: impartiality is never waived.</p>}
        <Link href={addressTo(paths.enter, { amend: sheet.id })}>Amend what was entered wrong</Link>
      </div>
      {decide.error && <Failure error={decide.error} />}
    </div>
  )
}

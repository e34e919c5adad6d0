import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Certification } from '#contract/standards/certifications.ts'
import { ApiError } from '../../../api/errors.ts'
import { invalidateSuspensions, suspend } from '../../../api/readiness/suspensions.ts'
import { CertificationField } from '../../../parts/standards/certification-field.tsx'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Field } from '../../../ui/field.tsx'
import { formatDayInFull } from '../../../words/format-day.ts'
import { PersonField } from './person-field.tsx'
import '../../../ui/reasoned-form.css'

interface SuspendFormProps {
  certifications: readonly Certification[]
  today: string
  /** Whom the form is opened for, where somebody was chosen elsewhere. */
  chosen: { id: string; text: string } | null
  onDone: () => void
}

/** Suspends somebody's certification from a day on, after saying what that does. */
export function SuspendForm({ certifications, today, chosen, onDone }: SuspendFormProps) {
  const [person, setPerson] = useState(chosen)
  const [certification, setCertification] = useState(certifications[0]?.code ?? '')
  const [from, setFrom] = useState(today)
  const [reason, setReason] = useState('')
  const [asks, setAsks] = useState(false)
  const [tried, setTried] = useState(false)
  const client = useQueryClient()
  const isBlank = reason.trim() === ''
  const title = certifications.find(({ code }) => code === certification)?.title ?? certification

  const save = async () => {
    try {
      await suspend({ soldierId: person!.id, certification, from, reason: reason.trim() })
    } catch (error) {
      if (error instanceof ApiError && error.items.some(({ rule }) => rule === 'unknown-person')) {
        throw new Error('This soldier is not in your unit now. Pick another, or ask the training office.')
      }
      throw error
    }
    await invalidateSuspensions(client)
    onDone()
  }
  return (
    <>
      <form
        className="reasoned-form"
        onSubmit={(event) => {
          event.preventDefault()
          setTried(true)
          if (person && !isBlank) setAsks(true)
        }}
      >
        <PersonField
          label="Soldier"
          chosen={person}
          onChoose={setPerson}
          error={tried && !person ? 'Pick a soldier from the list.' : null}
        />
        <CertificationField certifications={certifications} value={certification} onCertification={setCertification} />
        <DateField label="From" value={from} onDay={setFrom} />
        <Field label="Reason, which goes on record" error={tried && isBlank ? 'Say why first.' : null}>
          {(id, described) => (
            <textarea
              id={id}
              aria-describedby={described}
              aria-invalid={(tried && isBlank) || undefined}
              rows={2}
              value={reason}
              onChange={(event) => setReason(event.target.value)}
            />
          )}
        </Field>
        <div className="reasoned-form-buttons">
          <Button kind="main" type="submit">
            Suspend
          </Button>
          <Button onClick={onDone}>Cancel</Button>
        </div>
      </form>
      {asks && person && (
        <ConfirmDialog
          title={`Suspend ${person.text}?`}
          confirm="Suspend"
          onConfirm={save}
          onClose={() => setAsks(false)}
        >
          <p>
            From {formatDayInFull(from, today)} on <bdi>{person.text}</bdi> may not stand by the certification {title},
            until it is lifted. Posts they are named to then count as short. The certification itself goes on running.
          </p>
        </ConfirmDialog>
      )}
    </>
  )
}

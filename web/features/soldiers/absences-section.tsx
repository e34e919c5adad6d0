import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Absence, AbsenceBody } from '#contract/soldiers/absences.ts'
import { absencesQuery, addAbsence, changeAbsence, invalidatePeople, removeAbsence } from '../../api/soldiers/people.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { capital } from '../../words/format-number.ts'
import { formatAbsenceState, formatDays } from './format-people.ts'
import { generalOf, wrongAt } from './wrong-at.ts'

const KINDS: readonly AbsenceBody['kind'][] = ['leave', 'course', 'duty elsewhere', 'not available']

interface AbsencesSectionProps {
  soldierId: string
  today: string
  mayManage: boolean
}

/** Days on which the soldier cannot be called on: the kind and no more. */
export function AbsencesSection({ soldierId, today, mayManage }: AbsencesSectionProps) {
  const [open, setOpen] = useState<Absence | 'new' | null>(null)
  const client = useQueryClient()
  const absences = useQuery(absencesQuery(soldierId)).data
  const gone = useMutation({ mutationFn: removeAbsence, onSuccess: () => invalidatePeople(client) })
  const end = useMutation({
    mutationFn: ({ id, from, kind }: Absence) => changeAbsence(id, { from, through: today, kind }),
    onSuccess: () => invalidatePeople(client),
  })
  const failed = gone.error ?? end.error
  return (
    <Section
      title="Absences"
      note="the kind only, never a reason"
      more={
        mayManage && (
          <Button kind="quiet" onClick={() => setOpen('new')}>
            Enter an absence
          </Button>
        )
      }
    >
      {open && (
        <AbsenceForm
          key={open === 'new' ? '' : open.id}
          {...{ soldierId, today }}
          absence={open}
          onDone={() => setOpen(null)}
        />
      )}
      {failed && <Failure error={failed} />}
      {absences?.length === 0 && !open && (
        <Empty>
          <p>No absence is entered.</p>
        </Empty>
      )}
      <ul className="people-list">
        {absences?.map((absence) => (
          <li key={absence.id}>
            <span className="people-when">{formatDays(absence.from, absence.through, today)}</span>
            <span>
              {capital(absence.kind)} <span className="muted">{formatAbsenceState(absence, today)}</span>
            </span>
            {mayManage && (
              <span className="people-acts">
                {formatAbsenceState(absence, today) === 'now' && absence.through !== today && (
                  <Button kind="quiet" onClick={() => end.mutate(absence)}>
                    Ends today
                  </Button>
                )}
                <Button
                  kind="quiet"
                  aria-label={`Change the absence from ${absence.from}`}
                  onClick={() => setOpen(absence)}
                >
                  Change
                </Button>
                <Button
                  kind="quiet"
                  aria-label={`Take back the absence from ${absence.from}`}
                  onClick={() => gone.mutate(absence.id)}
                >
                  Take back
                </Button>
              </span>
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}

interface AbsenceFormProps {
  soldierId: string
  today: string
  absence: Absence | 'new'
  onDone: () => void
}

function AbsenceForm({ soldierId, today, absence, onDone }: AbsenceFormProps) {
  const given = absence === 'new' ? { from: today, through: null, kind: 'leave' as const } : absence
  const client = useQueryClient()
  const [kind, setKind] = useState<AbsenceBody['kind']>(given.kind)
  const [from, setFrom] = useState(given.from)
  const [through, setThrough] = useState(given.through ?? '')
  const store = useMutation({
    mutationFn: () => {
      const body = { from, through: through || null, kind }
      return absence === 'new' ? addAbsence(soldierId, body) : changeAbsence(absence.id, body)
    },
    onSuccess: () => {
      onDone()
      return invalidatePeople(client)
    },
  })
  const wrong = wrongAt(store.error)
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        store.mutate()
      }}
    >
      <div className="people-fields">
        <SelectField label="Kind" value={kind} onChange={(event) => setKind(event.target.value as AbsenceBody['kind'])}>
          {KINDS.map((one) => (
            <option key={one} value={one}>
              {capital(one)}
            </option>
          ))}
        </SelectField>
        <TextField
          label="From"
          type="date"
          required
          value={from}
          error={wrong('/from')}
          onChange={(event) => setFrom(event.target.value)}
        />
        <TextField
          label="Last day"
          type="date"
          value={through}
          error={wrong('/through')}
          hint="Empty: until further notice."
          onChange={(event) => setThrough(event.target.value)}
        />
      </div>
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={store.isPending}>
          {absence === 'new' ? 'Enter the absence' : 'Save the absence'}
        </Button>
        <Button onClick={onDone}>Cancel</Button>
      </div>
      {generalOf(store.error) && <Failure error={store.error!} />}
    </form>
  )
}

import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import type { CoachingNote, CoachingNoteBody } from '#contract/coaching/coaching-notes.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { newestStandards, versionsOf } from '../../domain/standards/titles.ts'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Field, SelectField } from '../../ui/field.tsx'

interface NoteFormProps {
  /** Null: a new one. */
  note: CoachingNote | null
  standard: string
  standards: readonly Standard[]
  today: string
  onSave: (body: CoachingNoteBody) => Promise<unknown>
  onClose: () => void
}

const LONGEST = 1000

/** Day, measures drilled and what to remember of it. */
export default function NoteForm({ note, standard, standards, today, onSave, onClose }: NoteFormProps) {
  const first = standard || newestStandards(standards)[0]?.code || ''
  const [draft, setDraft] = useState<CoachingNoteBody>({
    on: note?.on ?? today,
    standard: note?.standard ?? first,
    measures: note?.measures ?? [],
    text: note?.text ?? '',
  })
  const [tried, setTried] = useState(false)
  const isEmpty = draft.measures.length === 0 && draft.text.trim() === ''
  const save = useMutation({ mutationFn: () => onSave({ ...draft, text: draft.text.trim() }), onSuccess: onClose })
  const change = (part: Partial<CoachingNoteBody>) => setDraft({ ...draft, ...part })
  const newest = versionsOf(standards, draft.standard)[0]
  return (
    <form
      className="note-form no-print"
      onSubmit={(event) => {
        event.preventDefault()
        setTried(true)
        if (!isEmpty) save.mutate()
      }}
    >
      <DateField label="Day" value={draft.on} onDay={(on) => change({ on })} required />
      <SelectField
        label="Standard"
        value={draft.standard}
        onChange={(event) => change({ standard: event.target.value, measures: [] })}
      >
        {newestStandards(standards).map(({ code, title }) => (
          <option key={code} value={code}>
            {title}
          </option>
        ))}
      </SelectField>
      <fieldset>
        <legend className="field-label">Drilled</legend>
        <div className="note-measures">
          {[...(newest?.majors ?? []), ...(newest?.minors ?? [])].map(({ code, title }) => (
            <label key={code} className="tick">
              <input
                type="checkbox"
                checked={draft.measures.includes(code)}
                onChange={({ target }) =>
                  change({
                    measures: target.checked
                      ? [...draft.measures, code]
                      : draft.measures.filter((measure) => measure !== code),
                  })
                }
              />
              {title}
            </label>
          ))}
        </div>
      </fieldset>
      <Field
        label="What to remember"
        error={tried && isEmpty ? 'Name a measure, or write what there is to remember.' : null}
        hint="About the drill only; nothing about health."
      >
        {(id, described) => (
          <textarea
            id={id}
            aria-describedby={described}
            rows={3}
            maxLength={LONGEST}
            value={draft.text}
            onChange={(event) => change({ text: event.target.value })}
          />
        )}
      </Field>
      <div className="note-buttons">
        <Button kind="main" type="submit" disabled={save.isPending}>
          {note ? 'Save the note' : 'Write it down'}
        </Button>
        <Button onClick={onClose}>Cancel</Button>
      </div>
      {save.error && <Failure error={save.error} />}
    </form>
  )
}

import { useQuery } from '@tanstack/react-query'
import { listsQuery } from '../../../api/soldiers/arms-and-grades.ts'
import { carriesArms } from '../../../domain/soldiers/carries-arms.ts'
import { readReference, writeReference } from '../../../domain/standards/edits/written-lines.ts'
import { Field, SelectField, TextField } from '../../../ui/field.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { LinesField, TextLines } from './lines-field.tsx'

/** What the standard is: title, arms, task, conditions, and from when it holds. */
export function AboutPart({ draft, problems, edit }: Editing) {
  const lists = useQuery(listsQuery).data
  const known = lists?.arms.map(({ code }) => code) ?? []
  const wrong = (pointer: string) => problemAt(problems, pointer, true)
  return (
    <div className="draft-fields">
      <TextField
        label="Title"
        className="draft-wide"
        maxLength={400}
        value={draft.title}
        error={wrong('/title')}
        onChange={(event) => edit({ ...draft, title: event.target.value }, 'title')}
      />
      <TextField
        label="Takes effect on"
        type="date"
        value={draft.effectiveFrom}
        error={wrong('/effectiveFrom')}
        onChange={(event) => edit({ ...draft, effectiveFrom: event.target.value }, 'effectiveFrom')}
      />
      {draft.version > 1 && (
        <SelectField
          label="Tests under earlier versions"
          value={String(draft.equivalentToPrevious)}
          hint="Awards in force stay in either case."
          onChange={(event) => edit({ ...draft, equivalentToPrevious: event.target.value === 'true' })}
        >
          <option value="true">count on: it is equivalent</option>
          <option value="false">no longer count toward an award</option>
        </SelectField>
      )}
      {(carriesArms(lists) || draft.arms.length > 0) && (
        <TextLines
          label="Arms, one a line"
          rows={2}
          value={draft.arms}
          error={wrong('/arms')}
          hint={`None: it is tested without arms, or with any.${known.length > 0 ? ` The list has ${known.join(', ')}.` : ''}`}
          onValue={(arms) => edit({ ...draft, arms }, 'arms')}
        />
      )}
      <Field label="Task" error={wrong('/task')} className="draft-wide">
        {(id, described) => (
          <textarea
            id={id}
            rows={2}
            maxLength={4000}
            aria-describedby={described}
            value={draft.task}
            onChange={(event) => edit({ ...draft, task: event.target.value }, 'task')}
          />
        )}
      </Field>
      <TextLines
        label="Conditions, one a line"
        value={draft.conditions}
        error={wrong('/conditions')}
        onValue={(conditions) => edit({ ...draft, conditions }, 'conditions')}
      />
      <TextLines
        label="Cautions, one a line"
        value={draft.cautions}
        error={wrong('/cautions')}
        onValue={(cautions) => edit({ ...draft, cautions }, 'cautions')}
      />
      <Field label="Standard, in words" error={wrong('/standard')}>
        {(id, described) => (
          <textarea
            id={id}
            rows={3}
            maxLength={4000}
            aria-describedby={described}
            value={draft.standard}
            onChange={(event) => edit({ ...draft, standard: event.target.value }, 'standard')}
          />
        )}
      </Field>
      <LinesField
        label="References, one a line"
        rows={3}
        hint="The edition after a semicolon: “Drill handbook; 2026”."
        value={draft.references}
        error={wrong('/references')}
        toLine={writeReference}
        read={(_, lines) => lines.map(readReference)}
        onValue={(references) => edit({ ...draft, references }, 'references')}
      />
    </div>
  )
}

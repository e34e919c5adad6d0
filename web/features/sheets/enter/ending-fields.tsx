import { SelectField, TextField } from '../../../ui/field.tsx'
import type { Draft } from './draft.ts'
import type { HeadErrors } from './to-body.ts'

interface EndingFieldsProps {
  draft: Draft
  errors: HeadErrors
  onChange: (change: Partial<Draft>) => void
}

const CONDITIONS = [
  { key: 'uniform', text: 'Right uniform worn' },
  { key: 'equipment', text: 'Equipment serviceable' },
  { key: 'sponsorPresent', text: 'Sponsor present' },
] as const

/** What the sheet holds beside the marks: conditions, a void, an outcome alone, notes. */
export function EndingFields({ draft, errors, onChange }: EndingFieldsProps) {
  return (
    <div className="enter-ending">
      <fieldset className="enter-conditions">
        <legend className="field-label">Conditions met</legend>
        {CONDITIONS.map(({ key, text }) => (
          <label key={key} className="tick">
            <input
              type="checkbox"
              checked={draft.conditions[key]}
              onChange={(event) => onChange({ conditions: { ...draft.conditions, [key]: event.target.checked } })}
            />
            {text}
          </label>
        ))}
      </fieldset>
      <SelectField
        label="The paper shows"
        value={draft.holds}
        onChange={(event) => onChange({ holds: event.target.value as Draft['holds'] })}
      >
        <option value="marks">Marks of a test</option>
        <option value="void">A test that is void</option>
        <option value="GO">Only the outcome: GO</option>
        <option value="NO-GO">Only the outcome: NO-GO</option>
      </SelectField>
      {draft.holds === 'void' && (
        <>
          <SelectField
            label="Void because of"
            value={draft.voidKind}
            onChange={(event) => onChange({ voidKind: event.target.value as Draft['voidKind'] })}
          >
            <option value="weather">weather</option>
            <option value="injury">injury</option>
            <option value="equipment">equipment</option>
            <option value="interrupted">interruption</option>
            <option value="other">another reason</option>
          </SelectField>
          <TextField
            label="What happened"
            className="enter-wide"
            error={errors.void}
            value={draft.voidText}
            onChange={(event) => onChange({ voidText: event.target.value })}
          />
        </>
      )}
      <SelectField
        label="Purpose"
        value={draft.purpose}
        onChange={(event) => onChange({ purpose: event.target.value as Draft['purpose'] })}
      >
        <option value="test">Test</option>
        <option value="practice">Practice, enters no figure</option>
      </SelectField>
      <TextField
        label="Notes"
        className="enter-wide"
        value={draft.notes}
        onChange={(event) => onChange({ notes: event.target.value })}
      />
      {draft.amends && (
        <TextField
          label="Why it is amended"
          className="enter-wide"
          error={errors.reason}
          value={draft.amends.reason}
          onChange={(event) => draft.amends && onChange({ amends: { ...draft.amends, reason: event.target.value } })}
        />
      )}
    </div>
  )
}

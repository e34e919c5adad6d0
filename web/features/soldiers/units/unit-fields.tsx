import type { UnitLevel } from '#contract/soldiers/levels.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { comparedLevel } from '../../../domain/soldiers/levels.ts'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { capital } from '../../../words/format-number.ts'
import { wrongAt } from '../wrong-at.ts'
import type { UnitFormState } from './use-unit-form.ts'

interface UnitFieldsProps {
  form: UnitFormState
  units: readonly Unit[]
  levels: readonly UnitLevel[]
  isNew: boolean
}

/** What a unit is called, where it belongs, its level, its clock, and when it closes. */
export function UnitFields({ form, units, levels, isNew }: UnitFieldsProps) {
  const wrong = wrongAt(form.saving.error)
  return (
    <div className="people-fields">
      <TextField
        label="Name"
        autoFocus
        required
        maxLength={400}
        autoComplete="off"
        value={form.name}
        error={wrong('/name')}
        hint="As people call it: “2nd Platoon”, “Color Team”."
        onChange={(event) => form.setName(event.target.value)}
      />
      {isNew && (
        <SelectField
          label="Part of"
          value={form.parentId ?? ''}
          error={wrong('/parentId')}
          onChange={(event) => form.putBelow(event.target.value || null)}
        >
          <option value="">Nothing: it is at the top</option>
          <UnitOptions units={units} />
        </SelectField>
      )}
      <SelectField
        label="Level"
        value={form.kind}
        error={wrong('/kind')}
        hint={`Findings compare ${comparedLevel(levels).many}.`}
        onChange={(event) => form.setKind(event.target.value)}
      >
        {levels.map(({ code, one }) => (
          <option key={code} value={code}>
            {capital(one)}
          </option>
        ))}
      </SelectField>
      <TextField
        label="Time zone"
        list="time-zones"
        autoComplete="off"
        value={form.timeZone}
        error={wrong('/timeZone')}
        hint="Only where it differs from the unit above; days on record stay as they are."
        onChange={(event) => form.setTimeZone(event.target.value)}
      />
      {!isNew && (
        <DateField
          label="Closed from (first day with nobody in it)"
          optional
          value={form.closedFrom}
          onDay={form.setClosedFrom}
        />
      )}
    </div>
  )
}

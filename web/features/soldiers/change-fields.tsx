import type { Soldier, Unit } from '#contract/soldiers/soldiers.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { ListedChoices } from '../../parts/soldiers/unlisted.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { ArmsField } from './arms-field.tsx'
import { type ChangeFormState, KINDS, type Kind, LEAVING, type Leaving } from './use-change-form.ts'
import { wrongAt } from './wrong-at.ts'

interface ChangeFieldsProps {
  form: ChangeFormState
  soldier: Soldier
  units: readonly Unit[]
}

/** What changes, from when, and what that kind of change asks for. */
export function ChangeFields({ form, soldier, units }: ChangeFieldsProps) {
  const { kind, has, carries, lists } = form
  const wrong = wrongAt(form.store.error)
  return (
    <div className="people-fields">
      <SelectField label="What changes" value={kind} onChange={(event) => form.setKind(event.target.value as Kind)}>
        {Object.entries(KINDS)
          .filter(([value]) => carries || value !== 'arms')
          .map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
      </SelectField>
      <TextField
        label="From"
        type="date"
        required
        value={form.from}
        error={wrong('/from')}
        onChange={(event) => form.setFrom(event.target.value)}
      />
      {has('move', 'return') && (
        <SelectField
          label="Unit"
          required
          value={form.unitId}
          error={wrong('/unitId')}
          onChange={(event) => form.setUnitId(event.target.value)}
        >
          <option value="">Choose</option>
          <UnitOptions units={units} />
        </SelectField>
      )}
      {has('promotion', 'return') && (
        <TextField
          label="Grade"
          required
          list="people-grades"
          autoComplete="off"
          value={form.grade}
          error={wrong('/grade')}
          onChange={(event) => form.changeGrade(event.target.value)}
        />
      )}
      <ListedChoices id="people-grades" listed={lists?.grades} />
      {carries && has('promotion', 'arms', 'return') && (
        <ArmsField
          value={form.arms}
          onValue={form.setArms}
          listed={lists?.arms}
          error={wrong('/arms')}
          {...(kind === 'promotion' &&
            form.suggested.join() !== soldier.arms.join() && {
              hint: `Those required of ${form.grade} carry ${form.suggested.join(', ')}; until now ${soldier.arms.join(', ') || 'none'}.`,
            })}
        />
      )}
      {has('leave') && (
        <SelectField label="Why" value={form.left} onChange={(event) => form.setLeft(event.target.value as Leaving)}>
          {Object.entries(LEAVING).map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </SelectField>
      )}
    </div>
  )
}

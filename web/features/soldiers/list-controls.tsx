import type { ArmsAndGrades } from '#contract/arms-and-grades/arms-and-grades.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { UnitField } from '../../parts/soldiers/unit-field.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { STRENGTH_CHOICES } from './format-people.ts'

interface ListControlsProps {
  filters: Record<'on' | 'unitId' | 'grade' | 'arm' | 'strength', string>
  onChange: (changes: Partial<ListControlsProps['filters']>) => void
  /** What is searched for. */
  typed: string
  onTyped: (typed: string) => void
  units: readonly Unit[]
  lists: ArmsAndGrades | undefined
  today: string
}

/** Which people one asks for. */
export function ListControls({ filters, onChange, typed, onTyped, units, lists, today }: ListControlsProps) {
  const { on, unitId, grade, arm, strength } = filters
  return (
    <>
      <TextField
        label="Number, name or grade"
        type="search"
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={(event) => onTyped(event.target.value)}
      />
      <UnitField units={units} value={unitId} onUnit={(unitId) => onChange({ unitId })} />
      <SelectField label="Strength" value={strength} onChange={(event) => onChange({ strength: event.target.value })}>
        {Object.entries(STRENGTH_CHOICES).map(([value, text]) => (
          <option key={value} value={value}>
            {text}
          </option>
        ))}
      </SelectField>
      <SelectField label="Grade" value={grade} onChange={(event) => onChange({ grade: event.target.value })}>
        <option value="">Any</option>
        {withChosen(lists?.grades ?? [], grade).map((one) => (
          <option key={one}>{one}</option>
        ))}
      </SelectField>
      {(carriesArms(lists) || arm !== '') && (
        <SelectField label="Arm" value={arm} onChange={(event) => onChange({ arm: event.target.value })}>
          <option value="">Any</option>
          {withChosen(lists?.arms ?? [], arm).map((one) => (
            <option key={one}>{one}</option>
          ))}
        </SelectField>
      )}
      <DateField label="As of" value={on || today} onDay={(day) => onChange({ on: day === today ? '' : day })} />
    </>
  )
}

/** The short forms of a list in its order, and the one chosen. */
const withChosen = (listed: readonly { readonly code: string }[], chosen: string): string[] => {
  const codes = listed.map(({ code }) => code)
  return chosen === '' || codes.includes(chosen) ? codes : [...codes, chosen]
}

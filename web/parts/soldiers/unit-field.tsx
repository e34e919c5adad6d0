import type { Unit } from '#contract/soldiers/soldiers.ts'
import { SelectField } from '../../ui/field.tsx'
import { UnitOptions } from './unit-options.tsx'

interface UnitFieldProps {
  units: readonly Unit[]
  /** The unit chosen; '': all of them. */
  value: string
  onUnit: (unitId: string) => void
}

/** Narrows a page to a unit with all below it. */
export function UnitField({ units, value, onUnit }: UnitFieldProps) {
  return (
    <SelectField label="Unit" value={value} onChange={(event) => onUnit(event.target.value)}>
      <option value="">All units</option>
      <UnitOptions units={units} />
    </SelectField>
  )
}

import type { Unit } from '#contract/soldiers/soldiers.ts'
import { ROLE_WORDS, type Role } from '../../domain/accounts/roles.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { SelectField } from '../../ui/field.tsx'
import type { Reach } from './reach.ts'
import { SoldierField } from './soldier-field.tsx'

interface ReachFieldsProps {
  reach: Reach
  onReach: (reach: Reach) => void
  units: readonly Unit[]
  /** What is wrong with a field, by its pointer. */
  wrong: (pointer: string) => string | undefined
}

/** Roles, soldier and unit of an account. */
export function ReachFields({ reach, onReach, units, wrong }: ReachFieldsProps) {
  const toggle = (role: Role) => {
    const roles = reach.roles.includes(role) ? reach.roles.filter((each) => each !== role) : [...reach.roles, role]
    onReach({ ...reach, roles })
  }
  const wrongRoles = wrong('/roles')
  return (
    <>
      <fieldset className="accounts-roles">
        <legend className="field-label">Roles</legend>
        {ROLE_WORDS.map(({ role, title, lets }) => (
          <label key={role} className="tick">
            <input type="checkbox" checked={reach.roles.includes(role)} onChange={() => toggle(role)} />
            <span>
              <b>{title}</b> <span className="muted small">{lets}</span>
            </span>
          </label>
        ))}
        {wrongRoles && (
          <p className="field-wrong" role="alert">
            <span className="field-note">{wrongRoles}</span>
          </p>
        )}
      </fieldset>
      <div className="accounts-of">
        <SoldierField
          soldier={reach.soldier}
          onSoldier={(soldierId, soldier) => onReach({ ...reach, soldierId, soldier })}
          error={wrong('/soldierId')}
        />
        <SelectField
          label="Unit they lead"
          hint="For leader and commander: this unit and all below it."
          error={wrong('/unitId')}
          value={reach.unitId ?? ''}
          onChange={(event) => onReach({ ...reach, unitId: event.target.value || null })}
        >
          <option value="">None</option>
          <UnitOptions units={units} />
        </SelectField>
      </div>
    </>
  )
}

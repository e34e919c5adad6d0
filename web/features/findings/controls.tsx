import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { newestStandards } from '../../domain/standards/titles.ts'
import { UnitField } from '../../parts/soldiers/unit-field.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { SelectField } from '../../ui/field.tsx'
import type { FindingFilters } from './use-finding.ts'

interface ControlsProps {
  filters: FindingFilters
  onChange: (changes: Partial<FindingFilters>) => void
  units: readonly Unit[]
  standards: readonly Standard[]
  /** First tests, retests and renewals apart; where that has no meaning, the choice is left out. */
  withAttempts?: boolean
  /** What stands first is first tests alone. */
  firstTests?: boolean | undefined
}

/** What the findings are about: standard, arm, unit, days, kind of attempt. */
export function FindingControls({
  filters,
  onChange,
  units,
  standards,
  withAttempts = true,
  firstTests,
}: ControlsProps) {
  const arms = [...new Set(standards.flatMap((standard) => standard.arms))].sort()
  return (
    <>
      <SelectField
        label="Standard"
        value={filters.standard}
        onChange={(event) => onChange({ standard: event.target.value })}
      >
        <option value="">All standards</option>
        {newestStandards(standards).map(({ code, title }) => (
          <option key={code} value={code}>
            {title}
          </option>
        ))}
      </SelectField>
      {arms.length > 0 && (
        <SelectField label="Arm" value={filters.arm} onChange={(event) => onChange({ arm: event.target.value })}>
          <option value="">All arms</option>
          {arms.map((arm) => (
            <option key={arm}>{arm}</option>
          ))}
        </SelectField>
      )}
      <UnitField units={units} value={filters.unitId} onUnit={(unitId) => onChange({ unitId })} />
      {withAttempts && (
        <SelectField
          label="Attempts"
          value={filters.attempts}
          onChange={(event) => onChange({ attempts: event.target.value })}
        >
          <option value="">{firstTests ? 'First tests' : 'All attempts'}</option>
          {firstTests ? <option value="all">All attempts</option> : <option value="first">First tests</option>}
          <option value="retest">Retests after a NO-GO</option>
          <option value="renewal">Renewals</option>
        </SelectField>
      )}
      <DateField label="From" optional value={filters.from} onDay={(from) => onChange({ from })} />
      <DateField label="To" optional value={filters.to} onDay={(to) => onChange({ to })} />
    </>
  )
}

import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { UnitField } from '../../../parts/soldiers/unit-field.tsx'
import { CertificationField } from '../../../parts/standards/certification-field.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { RETEST_STATES } from './filter-retests.ts'
import type { RetestFilters } from './use-retests.ts'

interface ControlsProps {
  filters: RetestFilters
  onChange: (changes: Partial<RetestFilters>) => void
  asOf: string
  today: string
  units: readonly Unit[]
  certifications: readonly Certification[]
}

/** Which retests one asks for. What is booked is known of today alone. */
export function Controls({ filters, onChange, asOf, today, units, certifications }: ControlsProps) {
  return (
    <>
      <UnitField units={units} value={filters.unitId} onUnit={(unitId) => onChange({ unitId })} />
      <CertificationField
        certifications={certifications}
        value={filters.certification}
        all="All"
        onCertification={(certification) => onChange({ certification })}
      />
      <SelectField label="State" value={filters.state} onChange={(event) => onChange({ state: event.target.value })}>
        <option value="">All open</option>
        {Object.entries(RETEST_STATES).map(([state, text]) => (
          <option key={state} value={state}>
            {text}
          </option>
        ))}
      </SelectField>
      {asOf === today && (
        <SelectField
          label="Booking"
          value={filters.booking}
          onChange={(event) => onChange({ booking: event.target.value })}
        >
          <option value="">Booked or not</option>
          <option value="none">Not booked</option>
          <option value="booked">Booked</option>
        </SelectField>
      )}
      <SelectField label="Show" value={filters.view} onChange={(event) => onChange({ view: event.target.value })}>
        <option value="">Open retests</option>
        <option value="kept">GOs that stop counting soon</option>
      </SelectField>
      <DateField label="As of" value={asOf} onDay={(day) => onChange({ asOf: day === today ? '' : day })} />
    </>
  )
}

import type { CeremonySummary } from '#contract/ceremonies/ceremonies.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { UnitField } from '../../parts/soldiers/unit-field.tsx'
import { CertificationField } from '../../parts/standards/certification-field.tsx'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { SelectField } from '../../ui/field.tsx'
import { formatDay } from '../../words/format-day.ts'

type Filters = Record<'asOf' | 'unitId' | 'ceremony' | 'certification' | 'standing', string>

interface ControlsProps {
  filters: Filters
  onChange: (changes: Partial<Filters>) => void
  asOf: string
  today: string
  units: readonly Unit[]
  ceremonies: readonly CeremonySummary[]
  certifications: readonly Certification[]
  onPrint?: () => void
}

/** What one asks for: a ceremony or a date, a unit, a certification. Picking a ceremony takes its day and unit. */
export function Controls({
  filters,
  onChange,
  asOf,
  today,
  units,
  ceremonies,
  certifications,
  onPrint,
}: ControlsProps) {
  const coming = ceremonies
    .filter(({ day, id }) => day >= today || id === filters.ceremony)
    .sort((a, b) => a.startsAt.localeCompare(b.startsAt))
  const pickCeremony = (id: string) => {
    const ceremony = ceremonies.find((candidate) => candidate.id === id)
    onChange({ ceremony: id, asOf: ceremony?.day ?? '', unitId: ceremony?.unitId ?? filters.unitId })
  }
  return (
    <>
      <SelectField label="Ceremony" value={filters.ceremony} onChange={(event) => pickCeremony(event.target.value)}>
        <option value="">None, only a date</option>
        {coming.map((ceremony) => (
          <option key={ceremony.id} value={ceremony.id}>
            {ceremony.title}, {formatDay(ceremony.day, today)}
          </option>
        ))}
      </SelectField>
      <DateField
        label="As of"
        value={asOf}
        onDay={(day) => onChange({ asOf: day === today ? '' : day, ceremony: '' })}
      />
      <UnitField units={units} value={filters.unitId} onUnit={(unitId) => onChange({ unitId })} />
      <CertificationField
        certifications={certifications}
        value={filters.certification}
        all="All certifications"
        onCertification={(certification) => onChange({ certification })}
      />
      <SelectField
        label="List"
        value={filters.standing}
        onChange={(event) => onChange({ standing: event.target.value })}
      >
        <option value="">Everybody</option>
        <option value="cannot">Who may not stand</option>
        <option value="can">Who can stand</option>
      </SelectField>
      {onPrint && (
        <Button className="push" onClick={onPrint}>
          Print roster
        </Button>
      )}
    </>
  )
}

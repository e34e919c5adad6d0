import type { Unit } from '#contract/soldiers/soldiers.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Field, SelectField, TextField } from '../../ui/field.tsx'
import type { Draft } from './draft.ts'

interface PlanFieldsProps {
  draft: Draft
  onChange: (changes: Partial<Draft>) => void
  units: readonly Unit[]
  zone: string
  wrongAt: (pointer: string) => string | null
}

/** Title, unit, place, times with what is duty around them, and notes for the roster. */
export function PlanFields({ draft, onChange, units, zone, wrongAt }: PlanFieldsProps) {
  const time = (label: string, name: 'report' | 'start' | 'end', pointer: string, hint?: string) => (
    <TextField
      label={label}
      type="time"
      required={name !== 'report'}
      hint={hint}
      error={wrongAt(pointer)}
      value={draft[name]}
      onChange={(event) => onChange({ [name]: event.target.value })}
    />
  )
  const minutes = (label: string, name: 'minutesBefore' | 'minutesAfter') => (
    <TextField
      label={label}
      type="number"
      min={0}
      max={1440}
      required
      error={wrongAt(`/${name}`)}
      value={draft[name]}
      onChange={(event) => onChange({ [name]: event.target.value })}
    />
  )
  return (
    <div className="plan-fields">
      <TextField
        label="Title"
        className="plan-wide"
        required
        maxLength={400}
        error={wrongAt('/title')}
        value={draft.title}
        onChange={(event) => onChange({ title: event.target.value })}
      />
      <SelectField
        label="Manned by"
        className="plan-wide"
        error={wrongAt('/unitId')}
        value={draft.unitId}
        onChange={(event) => onChange({ unitId: event.target.value })}
      >
        <UnitOptions units={units} />
      </SelectField>
      <TextField
        label="Where"
        className="plan-wide"
        error={wrongAt('/place')}
        value={draft.place}
        onChange={(event) => onChange({ place: event.target.value })}
      />
      <DateField label="Day" value={draft.day} required onDay={(day) => onChange({ day })} />
      {time('Report', 'report', '/reportsAt', `times of ${zone.replaceAll('_', ' ')}`)}
      {time('Start', 'start', '/startsAt')}
      {time('End', 'end', '/endsAt')}
      {minutes('Duty before reporting, minutes', 'minutesBefore')}
      {minutes('Duty after the end, minutes', 'minutesAfter')}
      <Field label="Notes for the roster" className="plan-full" error={wrongAt('/notes')} hint="Uniform, transport.">
        {(id, described) => (
          <textarea
            id={id}
            aria-describedby={described}
            rows={2}
            maxLength={4000}
            value={draft.notes}
            onChange={(event) => onChange({ notes: event.target.value })}
          />
        )}
      </Field>
    </div>
  )
}

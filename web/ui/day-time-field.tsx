import { DateField } from './date-field.tsx'
import { TextField } from './field.tsx'
import './day-time-field.css'

export interface DayTime {
  /** `YYYY-MM-DD`, or ''. */
  day: string
  /** `HH:MM`, or ''. */
  time: string
}

interface DayTimeFieldProps {
  legend: string
  value: DayTime
  onChange: (value: DayTime) => void
  /** Whose clock it is: "times of New York". */
  zone?: string | undefined
  error?: string | null
}

/** A day and a clock time, in the zone of the unit they are for. */
export function DayTimeField({ legend, value, onChange, zone, error }: DayTimeFieldProps) {
  return (
    <fieldset className="day-time">
      <legend className="field-label">{legend}</legend>
      <DateField label="Day" value={value.day} onDay={(day) => onChange({ ...value, day })} />
      <TextField
        label="Time"
        type="time"
        value={value.time}
        error={error}
        hint={zone}
        onChange={(event) => onChange({ ...value, time: event.target.value })}
      />
    </fieldset>
  )
}

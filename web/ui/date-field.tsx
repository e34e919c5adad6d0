import { useState } from 'react'
import { TextField } from './field.tsx'

interface DateFieldProps {
  label: string
  /** `YYYY-MM-DD`, or '' for none. */
  value: string
  onDay: (day: string) => void
  /** Emptying the field is a choice, too. */
  optional?: boolean
  /** A form is not sent without it. */
  required?: boolean
}

/** A date; tells of it once it is whole and plausible, so that a year half typed asks for nothing. */
export function DateField({ label, value, onDay, optional = false, required }: DateFieldProps) {
  const [typed, setTyped] = useState(value)
  const [given, setGiven] = useState(value)
  if (given !== value) {
    setGiven(value)
    setTyped(value)
  }
  return (
    <TextField
      label={label}
      type="date"
      required={required}
      min="1900-01-01"
      max="2200-12-31"
      value={typed}
      onChange={(event) => {
        const { value: text, validity } = event.target
        setTyped(text)
        if (validity.valid && !validity.badInput && (text || optional)) onDay(text)
      }}
      onBlur={() => {
        if (!typed && !optional) setTyped(value)
      }}
    />
  )
}

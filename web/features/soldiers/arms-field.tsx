import { TextField } from '../../ui/field.tsx'

/** Arms as typed, "sword, rifle", and as data. */
export const armsOf = (text: string): string[] => [
  ...new Set(
    text
      .split(/[\s,;]+/)
      .map((arm) => arm.trim())
      .filter(Boolean),
  ),
]

interface ArmsFieldProps {
  value: string
  onValue: (text: string) => void
  known: readonly string[]
  error?: string | undefined
  hint?: string
}

/** The arms somebody carries. */
export function ArmsField({ value, onValue, known, error, hint }: ArmsFieldProps) {
  return (
    <TextField
      label="Arms"
      value={value}
      error={error}
      hint={hint ?? (known.length > 0 ? `Such as ${known.join(', ')}; several with a comma between.` : undefined)}
      onChange={(event) => onValue(event.target.value)}
    />
  )
}

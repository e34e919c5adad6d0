import { TextField } from '../../ui/field.tsx'

interface ArmsFieldProps {
  value: string
  onValue: (text: string) => void
  /** The list of the unit. */
  listed: readonly { readonly code: string }[] | undefined
  error?: string | undefined
  hint?: string
}

/** The arms somebody carries. */
export function ArmsField({ value, onValue, listed = [], error, hint }: ArmsFieldProps) {
  const known = listed.map(({ code }) => code).join(', ')
  return (
    <TextField
      label="Arms"
      value={value}
      error={error}
      hint={hint ?? (known ? `Of ${known}; several with a comma between.` : undefined)}
      onChange={(event) => onValue(event.target.value)}
    />
  )
}

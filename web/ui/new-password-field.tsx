import { useState } from 'react'
import { TextField } from './field.tsx'

interface NewPasswordFieldProps {
  label: string
  value: string
  onValue: (value: string) => void
  /** At least this many characters. */
  shortest: number
  error?: string | undefined
  autoFocus?: boolean
}

/** A password somebody chooses; it can be looked at, and pasted from where it is kept. */
export function NewPasswordField({ label, value, onValue, shortest, error, autoFocus }: NewPasswordFieldProps) {
  const [shown, setShown] = useState(false)
  return (
    <>
      <TextField
        label={label}
        type={shown ? 'text' : 'password'}
        autoComplete="new-password"
        autoCapitalize="none"
        spellCheck={false}
        required
        minLength={shortest}
        hint={`At least ${shortest} characters of any kind; a few words that do not belong together make a good one.`}
        error={error}
        autoFocus={autoFocus}
        value={value}
        onChange={(event) => onValue(event.target.value)}
      />
      <label className="tick">
        <input type="checkbox" checked={shown} onChange={() => setShown(!shown)} />
        Show what is typed
      </label>
    </>
  )
}

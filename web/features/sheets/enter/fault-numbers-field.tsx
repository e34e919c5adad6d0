import { useState } from 'react'
import { TextField } from '../../../ui/field.tsx'
import { readFaultNumbers, toFaultNumbers } from './fault-numbers.ts'

interface FaultNumbersFieldProps {
  faults: readonly { code: string; title: string }[]
  noted: readonly string[]
  onFaults: (codes: readonly string[]) => void
  /** Back to the marks. */
  onBack: () => void
}

/** The faults of one trial by their numbers on the paper sheet; Enter goes back to the marks. */
export function FaultNumbersField({ faults, noted, onFaults, onBack }: FaultNumbersFieldProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const text = typed ?? toFaultNumbers(faults, noted)
  const { unknown } = readFaultNumbers(faults, text)
  return (
    <TextField
      label="Faults by their numbers on paper"
      className="panel-numbers"
      inputMode="numeric"
      autoComplete="off"
      tabIndex={-1}
      data-fault-numbers
      placeholder="2 5"
      error={
        unknown.length > 0
          ? `No fault has the number ${unknown.join(', ')}; this measure has 1 to ${faults.length}.`
          : null
      }
      value={text}
      onChange={(event) => {
        setTyped(event.target.value)
        onFaults(readFaultNumbers(faults, event.target.value).codes)
      }}
      onBlur={() => unknown.length === 0 && setTyped(null)}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' && (event.key !== 'Enter' || event.ctrlKey)) return
        event.preventDefault()
        if (unknown.length === 0) onBack()
      }}
    />
  )
}

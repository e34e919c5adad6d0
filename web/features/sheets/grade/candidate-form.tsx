import { useState } from 'react'
import { isolated } from '#calendar/isolate.ts'
import { Button } from '../../../ui/button.tsx'
import { TextField } from '../../../ui/field.tsx'

interface CandidateFormProps {
  rosterNumber: string
  familyName: string
  submit: string
  onSubmit: (candidate: { rosterNumber: string; familyName: string }) => void
}

/** Somebody without a booking: roster number and family name, which the server compares when it can be reached. */
export function CandidateForm({ rosterNumber, familyName, submit, onSubmit }: CandidateFormProps) {
  const [number, setNumber] = useState(rosterNumber)
  const [name, setName] = useState(familyName)
  const [tried, setTried] = useState(false)
  const isMissing = (text: string) => tried && text.trim() === ''
  return (
    <form
      className="candidate-form"
      onSubmit={(event) => {
        event.preventDefault()
        setTried(true)
        if (number.trim() !== '' && name.trim() !== '')
          onSubmit({ rosterNumber: number.trim(), familyName: isolated(name.trim()) })
      }}
    >
      <TextField
        label="Roster number"
        autoComplete="off"
        maxLength={40}
        value={number}
        error={isMissing(number) ? 'Give the roster number.' : null}
        onChange={(event) => setNumber(event.target.value)}
      />
      <TextField
        label="Family name"
        autoComplete="off"
        maxLength={100}
        value={name}
        error={isMissing(name) ? 'Give the family name as on the roster.' : null}
        onChange={(event) => setName(event.target.value)}
      />
      <Button type="submit">{submit}</Button>
    </form>
  )
}

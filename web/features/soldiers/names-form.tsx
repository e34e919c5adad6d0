import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Soldier } from '#contract/soldiers/soldiers.ts'
import { correctNames, invalidatePeople } from '../../api/soldiers/people.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { generalOf, wrongAt } from './wrong-at.ts'

const FIELDS = [
  ['rosterNumber', 'Roster number'],
  ['familyName', 'Family name'],
  ['givenName', 'Given name'],
  ['reason', 'Why is it corrected?'],
] as const

interface NamesFormProps {
  soldier: Soldier
  onDone: (said: string) => void
  onCancel: () => void
}

/** Corrects number and names. */
export function NamesForm({ soldier, onDone, onCancel }: NamesFormProps) {
  const { rosterNumber, familyName, givenName } = soldier
  const client = useQueryClient()
  const [words, setWords] = useState({ rosterNumber, familyName, givenName, reason: '' })
  const store = useMutation({
    mutationFn: () => correctNames(soldier.id, words),
    onSuccess: () => {
      onDone('Number and names are corrected.')
      return invalidatePeople(client)
    },
  })
  const wrong = wrongAt(store.error)
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        store.mutate()
      }}
    >
      <div className="people-fields">
        {FIELDS.map(([field, label]) => (
          <TextField
            key={field}
            label={label}
            required
            autoComplete="off"
            value={words[field]}
            error={wrong(`/${field}`)}
            onChange={(event) => setWords({ ...words, [field]: event.target.value })}
          />
        ))}
      </div>
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={store.isPending}>
          Correct number and names
        </Button>
        <Button onClick={onCancel}>Cancel</Button>
      </div>
      {generalOf(store.error) && <Failure error={store.error!} />}
    </form>
  )
}

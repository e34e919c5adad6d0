import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { addSoldier, invalidatePeople } from '../../api/soldiers/people.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { codesOf, ListedChoices, Unlisted } from '../../parts/soldiers/unlisted.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { today } from '../../words/today.ts'
import { ArmsField } from './arms-field.tsx'
import { generalOf, wrongAt } from './wrong-at.ts'

const FIELDS = [
  ['rosterNumber', 'Roster number'],
  ['familyName', 'Family name'],
  ['givenName', 'Given name'],
  ['grade', 'Grade'],
] as const

interface AddSoldierFormProps {
  units: readonly Unit[]
  onCancel: () => void
}

/** Puts somebody on the roster, and goes to their page. */
export function AddSoldierForm({ units, onCancel }: AddSoldierFormProps) {
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const lists = useQuery(listsQuery).data
  const [words, setWords] = useState({ rosterNumber: '', familyName: '', givenName: '', grade: '' })
  const [arms, setArms] = useState('')
  const [unitId, setUnitId] = useState('')
  const [from, setFrom] = useState(today())
  const add = useMutation({
    mutationFn: () => addSoldier({ ...words, arms: codesOf(arms), unitId, from }),
    onSuccess: async ({ id }) => {
      await Promise.all([invalidatePeople(client), client.invalidateQueries({ queryKey: listsQuery.queryKey })])
      navigate(addressTo(paths.person, { id }))
    },
  })
  const wrong = wrongAt(add.error)
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        add.mutate()
      }}
    >
      <div className="people-fields">
        {FIELDS.map(([field, label]) => (
          <TextField
            key={field}
            label={label}
            autoFocus={field === 'rosterNumber'}
            required
            autoComplete="off"
            list={field === 'grade' ? 'add-grades' : undefined}
            value={words[field]}
            error={wrong(`/${field}`)}
            onChange={(event) => setWords({ ...words, [field]: event.target.value })}
          />
        ))}
        {carriesArms(lists) && <ArmsField value={arms} onValue={setArms} listed={lists?.arms} error={wrong('/arms')} />}
        <SelectField
          label="Unit"
          required
          value={unitId}
          error={wrong('/unitId')}
          onChange={(event) => setUnitId(event.target.value)}
        >
          <option value="">Choose</option>
          <UnitOptions units={units} />
        </SelectField>
        <TextField
          label="Joined on"
          type="date"
          required
          value={from}
          error={wrong('/from')}
          onChange={(event) => setFrom(event.target.value)}
        />
      </div>
      <ListedChoices id="add-grades" listed={lists?.grades} />
      <Unlisted kind="grade" codes={codesOf(words.grade)} listed={lists?.grades} />
      <Unlisted kind="arm" codes={codesOf(arms)} listed={lists?.arms} />
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={add.isPending}>
          Add to the roster
        </Button>
        <Button onClick={onCancel}>Cancel</Button>
      </div>
      {generalOf(add.error) && <Failure error={add.error!} />}
    </form>
  )
}

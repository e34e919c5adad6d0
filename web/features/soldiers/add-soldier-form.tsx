import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { addSoldier, forgetPeople } from '../../api/soldiers/people.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { today } from '../../words/today.ts'
import { ArmsField, armsOf } from './arms-field.tsx'
import { knownArms } from './known.ts'
import { generalOf, wrongAt } from './wrong-at.ts'

const FIELDS = [
  ['rosterNumber', 'Roster number'],
  ['familyName', 'Family name'],
  ['givenName', 'Given name'],
  ['grade', 'Grade'],
] as const

interface AddSoldierFormProps {
  units: readonly Unit[]
  certifications: readonly Certification[]
  onCancel: () => void
}

/** Puts somebody on the roster, and goes to their page. */
export function AddSoldierForm({ units, certifications, onCancel }: AddSoldierFormProps) {
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const [words, setWords] = useState({ rosterNumber: '', familyName: '', givenName: '', grade: '' })
  const [arms, setArms] = useState('')
  const [unitId, setUnitId] = useState('')
  const [from, setFrom] = useState(today())
  const add = useMutation({
    mutationFn: () => addSoldier({ ...words, arms: armsOf(arms), unitId, from }),
    onSuccess: async ({ id }) => {
      await forgetPeople(client)
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
            required
            autoComplete="off"
            value={words[field]}
            error={wrong(`/${field}`)}
            onChange={(event) => setWords({ ...words, [field]: event.target.value })}
          />
        ))}
        <ArmsField value={arms} onValue={setArms} known={knownArms(certifications)} error={wrong('/arms')} />
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

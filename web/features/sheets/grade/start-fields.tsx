import { useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import type { ListedBooking } from '#contract/test-days/day-list.ts'
import { formatBookingState } from '../../../domain/test-days/format-check-in.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { capital } from '../../../words/format-number.ts'
import type { StartFields } from './use-start-form.ts'

/** Names somebody who has no booking, by what the roster knows them by. */
export function WalkInFields({ fields: { number, setNumber, name, setName, wrong } }: { fields: StartFields }) {
  return (
    <div className="start-row">
      <TextField
        label="Roster number"
        autoComplete="off"
        maxLength={40}
        value={number}
        error={wrong.number}
        onChange={(event) => setNumber(event.target.value)}
      />
      <TextField
        label="Family name"
        autoComplete="off"
        maxLength={100}
        value={name}
        error={wrong.name}
        hint="Both are compared with the roster when there is a network."
        onChange={(event) => setName(event.target.value)}
      />
    </div>
  )
}

interface StandardFieldsProps {
  fields: StartFields
  standard: Standard
  standards: readonly Standard[]
}

/** By which standard, and with which arm, where there is a choice. */
export function StandardFields({ fields, standard, standards }: StandardFieldsProps) {
  const { code, setCode, arms, arm, setArm, wrong } = fields
  return (
    <div className="start-row">
      {standards.length > 1 ? (
        <SelectField label="Standard" value={code} onChange={(event) => setCode(event.target.value)}>
          {standards.map((one) => (
            <option key={one.code} value={one.code}>
              {one.title}
            </option>
          ))}
        </SelectField>
      ) : (
        <p className="start-standard">
          <b>{standard.title}</b>
        </p>
      )}
      {arms.length > 1 && (
        <fieldset className="choices">
          <legend>Arm{wrong.arm ? `: ${wrong.arm}` : ''}</legend>
          {arms.map((one) => (
            <label key={one} className="choice">
              <input type="radio" name="arm" checked={arm === one} onChange={() => setArm(one)} />
              {one}
            </label>
          ))}
        </fieldset>
      )}
    </div>
  )
}

const CONDITIONS = [
  ['uniform', 'The right uniform is worn'],
  ['equipment', 'The equipment is serviceable'],
  ['sponsorPresent', 'The sponsor is here'],
] as const

interface ConditionFieldsProps {
  fields: StartFields
  /** What was found at check-in; it is not asked again. */
  found: ListedBooking['checkIn']
}

/** Whether the conditions of a test are met. */
export function ConditionFields({ fields: { conditions, setConditions }, found }: ConditionFieldsProps) {
  const [asksAgain, setAsksAgain] = useState(false)
  if (found && !asksAgain) {
    return (
      <p className="start-found">
        {capital(formatBookingState({ state: 'checked in', checkIn: conditions }))}.{' '}
        <Button kind="quiet" onClick={() => setAsksAgain(true)}>
          Change
        </Button>
      </p>
    )
  }
  return (
    <fieldset className="choices conditions">
      <legend>Conditions of the test</legend>
      {CONDITIONS.map(([key, words]) => (
        <label key={key} className="choice">
          <input
            type="checkbox"
            checked={conditions[key]}
            onChange={(event) => setConditions({ ...conditions, [key]: event.target.checked })}
          />
          {words}
        </label>
      ))}
    </fieldset>
  )
}

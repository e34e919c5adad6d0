import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { addUnit, changeUnit, unitsQuery } from '../../../api/soldiers/units.ts'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { Button } from '../../../ui/button.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { generalOf, wrongAt } from '../wrong-at.ts'
import { LEVELS } from './format-units.ts'

interface UnitFormProps {
  units: readonly Unit[]
  /** The one that is changed; without it a new one. */
  unit?: Unit
  /** Below this one a new one is likely to go. */
  below?: string | null
  onDone: () => void
}

/** Makes a unit, or changes what it is called, its level and its time zone, or closes it. Its place in the tree stays. */
export function UnitForm({ units, unit, below = null, onDone }: UnitFormProps) {
  const client = useQueryClient()
  const [name, setName] = useState(unit?.name ?? '')
  const [kind, setKind] = useState<Unit['kind']>(unit?.kind ?? (below === null ? 'unit' : levelBelow(units, below)))
  const [parentId, setParentId] = useState(below)
  const [timeZone, setTimeZone] = useState(unit?.timeZone ?? '')
  const [closedFrom, setClosedFrom] = useState(unit?.closedFrom ?? '')
  const closing = closedFrom === (unit?.closedFrom ?? '') ? {} : { closedFrom: closedFrom || null }
  const saving = useMutation({
    mutationFn: () => {
      const body = { name: name.trim(), kind, timeZone: timeZone.trim() || null }
      return unit ? changeUnit(unit.id, { ...body, ...closing }) : addUnit({ ...body, parentId })
    },
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: unitsQuery.queryKey })
      onDone()
    },
  })
  const wrong = wrongAt(saving.error)
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        saving.mutate()
      }}
    >
      <div className="people-fields">
        <TextField
          label="Name"
          required
          maxLength={400}
          autoComplete="off"
          value={name}
          error={wrong('/name')}
          hint="As people call it: “2nd Platoon”, “Color Team”."
          onChange={(event) => setName(event.target.value)}
        />
        {!unit && (
          <SelectField
            label="Part of"
            value={parentId ?? ''}
            error={wrong('/parentId')}
            onChange={(event) => setParentId(event.target.value || null)}
          >
            <option value="">Nothing: it is at the top</option>
            <UnitOptions units={units} />
          </SelectField>
        )}
        <SelectField
          label="Level"
          value={kind}
          error={wrong('/kind')}
          hint="Findings compare companies."
          onChange={(event) => setKind(event.target.value as Unit['kind'])}
        >
          {Object.entries(LEVELS).map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </SelectField>
        <TextField
          label="Time zone"
          list="time-zones"
          autoComplete="off"
          value={timeZone}
          error={wrong('/timeZone')}
          hint="Only where it differs from the unit above; days on record stay as they are."
          onChange={(event) => setTimeZone(event.target.value)}
        />
        {unit && (
          <DateField
            label="Closed from (first day with nobody in it)"
            optional
            value={closedFrom}
            onDay={setClosedFrom}
          />
        )}
      </div>
      {unit && (
        <p className="muted small">
          A unit closes once nobody is in it and nothing is planned for it from that day on; its past stays. Empty the
          day to open it again.
        </p>
      )}
      <datalist id="time-zones">
        {Intl.supportedValuesOf('timeZone').map((zone) => (
          <option key={zone} value={zone} />
        ))}
      </datalist>
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={saving.isPending}>
          {unit ? 'Store the change' : 'Add the unit'}
        </Button>
        <Button onClick={onDone}>Cancel</Button>
      </div>
      {generalOf(saving.error) && <Failure error={saving.error!} />}
    </form>
  )
}

const levelBelow = (units: readonly Unit[], id: string): Unit['kind'] =>
  units.find((unit) => unit.id === id)?.kind === 'unit' ? 'company' : 'platoon'

import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { UnitMovePreview } from '#contract/soldiers/unit-moves.ts'
import { movePreviewQuery, moveUnit } from '../../../api/soldiers/units.ts'
import { fullUnitName, unitsBelow } from '../../../domain/soldiers/unit-tree.ts'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { Button } from '../../../ui/button.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { formatAlong, formatRequired, formatStays } from './format-move.ts'

interface MoveFormProps {
  units: readonly Unit[]
  unit: Unit
  today: string
  onDone: () => void
}

const TOP = 'top'

/** Moves a unit under another one from a day on, and says first what that takes along and what stays. */
export function MoveForm({ units, unit, today, onDone }: MoveFormProps) {
  const client = useQueryClient()
  const [under, setUnder] = useState('')
  const [from, setFrom] = useState(today)
  const to = { parentId: under === TOP ? null : under, from }
  const preview = useQuery({
    ...movePreviewQuery(unit.id, to),
    enabled: under !== '' && from !== '',
    placeholderData: keepPreviousData,
    retry: false,
  })
  const saving = useMutation({
    mutationFn: () => moveUnit(unit.id, to),
    onSuccess: async () => {
      await client.invalidateQueries()
      onDone()
    },
  })
  const own = new Set(unitsBelow(units, unit.id).map(({ id }) => id))
  const error = saving.error ?? preview.error
  return (
    <form
      className="people-form"
      onSubmit={(event) => {
        event.preventDefault()
        saving.mutate()
      }}
    >
      <div className="people-fields">
        <SelectField
          label="To be part of"
          autoFocus
          required
          value={under}
          onChange={(event) => setUnder(event.target.value)}
        >
          <option value="">Choose where it goes</option>
          {unit.parentId !== null && <option value={TOP}>Nothing: to the top</option>}
          <UnitOptions units={units.filter(({ id }) => !own.has(id))} />
        </SelectField>
        <DateField label="From this day on" required value={from} onDay={setFrom} />
      </div>
      {preview.data && !error && (
        <Told units={units} unit={unit} under={to.parentId} told={preview.data} today={today} />
      )}
      <div className="people-buttons">
        <Button type="submit" kind="main" disabled={saving.isPending || !preview.data || preview.error !== null}>
          Move it
        </Button>
        <Button onClick={onDone}>Cancel</Button>
      </div>
      {error && <Failure error={error} />}
    </form>
  )
}

interface ToldProps {
  units: readonly Unit[]
  unit: Unit
  under: string | null
  told: UnitMovePreview
  today: string
}

function Told({ units, unit, under, told, today }: ToldProps) {
  const where = under === null ? 'at the top' : `in ${fullUnitName(units, under)}`
  const required = formatRequired(told)
  return (
    <Notice>
      <p>{formatAlong(told, unit.name, where, today)}</p>
      <p>{formatStays(told, fullUnitName(units, unit.id), today)}</p>
      {required && <p>{required}</p>}
      {told.zone && <p>It keeps the time zone {told.zone} as its own, for another one holds there.</p>}
    </Notice>
  )
}

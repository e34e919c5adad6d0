import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { planTestDay } from '../../api/test-days/test-days.ts'
import { timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { TimesAsked } from '../../ui/times-asked.tsx'
import { unitZone } from '../../words/unit-zone.ts'
import './test-days.css'

/** Plans a test day and goes to it, where its slots are made. */
export function PlanForm({ units, today }: { units: readonly Unit[]; today: string }) {
  const client = useQueryClient()
  const [, go] = useLocation()
  const [on, setOn] = useState(today)
  const [place, setPlace] = useState('')
  const [unit, setUnit] = useState('')
  const unitId = unit || units.find(({ parentId }) => parentId === null)?.id || ''
  const zone = timeZoneOf(units, unitId) ?? unitZone()
  const plan = useMutation({
    mutationFn: () => planTestDay({ on, place: place.trim(), unitId }),
    onSuccess: async ({ id }) => {
      await client.invalidateQueries({ queryKey: ['test-days'] })
      go(addressTo(paths.testDay, { id }))
    },
  })
  return (
    <form
      className="form-row"
      onSubmit={(event) => {
        event.preventDefault()
        plan.mutate()
      }}
    >
      <DateField label="Day" value={on} onDay={setOn} />
      <TextField label="Place" value={place} maxLength={400} onChange={(event) => setPlace(event.target.value)} />
      <SelectField label="For" value={unitId} onChange={(event) => setUnit(event.target.value)}>
        <UnitOptions units={units} />
      </SelectField>
      <TimesAsked day={on} from="" to="" zone={zone} today={today} />
      <Button type="submit" kind="main" disabled={plan.isPending || unitId === ''}>
        Plan it
      </Button>
      {plan.error && <Failure error={plan.error} />}
    </form>
  )
}

import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation } from 'wouter'
import type { Plan } from '#contract/plans/plans.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { askPlan, type PlanAsked } from '../../api/plans/plans.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'

const CHOICES = [
  ['renewals', 'Renewals that lapse by then, too'],
  ['firstTests', 'First tests, too'],
  ['moveBookings', 'Bookings may move'],
] as const

/** What the plan is asked for; a change is another plan. */
export function PlanControls({ plan, units }: { plan: Plan; units: readonly Unit[] }) {
  const { kind, unitId, from, to, options } = plan
  const [asked, setAsked] = useState<PlanAsked>({ kind, unitId, from, to, ...options })
  const [, navigate] = useLocation()
  const ask = useMutation({
    mutationFn: () => askPlan(asked),
    onSuccess: ({ id }) => navigate(addressTo(paths.retestPlan, { id })),
  })
  return (
    <>
      <SelectField
        label="Unit"
        value={asked.unitId}
        onChange={(event) => setAsked({ ...asked, unitId: event.target.value })}
      >
        <UnitOptions units={units} />
      </SelectField>
      <DateField label="From" value={asked.from} onDay={(day) => setAsked({ ...asked, from: day })} />
      <DateField label="To" value={asked.to} onDay={(day) => setAsked({ ...asked, to: day })} />
      <fieldset className="plan-choices">
        <legend className="out-of-sight">What is planned</legend>
        {CHOICES.map(([name, text]) => (
          <label key={name} className="tick">
            <input
              type="checkbox"
              checked={asked[name] ?? false}
              onChange={(event) => setAsked({ ...asked, [name]: event.target.checked })}
            />
            {text}
          </label>
        ))}
      </fieldset>
      <Button onClick={() => ask.mutate()} disabled={ask.isPending}>
        Plan this
      </Button>
      {ask.error && <Failure error={ask.error} />}
    </>
  )
}

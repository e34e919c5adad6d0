import { useMutation, useQuery } from '@tanstack/react-query'
import type { ReadinessForecast } from '#contract/readiness-forecast/readiness-forecast.ts'
import { askPlan } from '../../../api/plans/plans.ts'
import { bookingsQuery } from '../../../api/test-days/bookings.ts'
import { testDaysQuery } from '../../../api/test-days/test-days.ts'
import { useMay } from '../../../api/use-may.ts'
import { Button } from '../../../ui/button.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { counted } from '../../../words/format-number.ts'
import type { WhatIfFilters } from './use-what-if.ts'

interface WhatIfFieldsProps {
  filters: WhatIfFilters
  unitId: string | undefined
  on: string
  today: string
  need: ReadinessForecast['need']
  standards: readonly string[]
  standardTitle: (code: string) => string
}

/** What may be supposed: a test day more, slots fewer, a grader away, a ceremony moved, the bookings of a plan. */
export function WhatIfFields({ filters, unitId, on, today, need, standards, standardTitle }: WhatIfFieldsProps) {
  const { set } = filters
  const days = useQuery(testDaysQuery({ from: today, through: filters.until })).data ?? []
  return (
    <div className="ahead-if no-print">
      <fieldset>
        <legend>A test day more</legend>
        <DateField label="On" value={filters.moreOn} optional onDay={(day) => set({ moreOn: day })} />
        <SelectField label="Test" value={filters.moreOf} onChange={(event) => set({ moreOf: event.target.value })}>
          {standards.map((code) => (
            <option key={code} value={code}>
              {standardTitle(code)}
            </option>
          ))}
        </SelectField>
        <Amount label="Slots" value={filters.moreSlots} onAmount={(moreSlots) => set({ moreSlots })} />
      </fieldset>
      <fieldset>
        <legend>Slots fewer</legend>
        <SelectField
          label="On the test day"
          value={filters.fewerOn}
          onChange={(event) => set({ fewerOn: event.target.value })}
        >
          <option value="">No day</option>
          {days
            .filter(({ calledOff, bookings }) => !calledOff && bookings > 0)
            .map(({ id, on: day, bookings }) => (
              <option key={id} value={id}>
                {formatDay(day, today)}, {counted(bookings, 'booking')}
              </option>
            ))}
        </SelectField>
        <Amount label="So many" value={filters.fewerSlots} onAmount={(fewerSlots) => set({ fewerSlots })} />
      </fieldset>
      <GraderAway filters={filters} standards={standards} today={today} />
      {need && <CeremonyMoved filters={filters} need={need} on={on} />}
      <PlanBooked filters={filters} unitId={unitId} today={today} />
      {filters.isSet && <Button onClick={filters.clear}>As it is booked</Button>}
    </div>
  )
}

function Amount({ label, value, onAmount }: { label: string; value: string; onAmount: (amount: string) => void }) {
  return (
    <TextField
      label={label}
      type="number"
      min="1"
      max="999"
      value={value}
      onChange={(event) => onAmount(event.target.value)}
    />
  )
}

function GraderAway({ filters, standards, today }: Pick<WhatIfFieldsProps, 'filters' | 'standards' | 'today'>) {
  const bookings = useQuery(bookingsQuery({ from: today })).data ?? []
  const graders = new Map<string, { name: string; tests: number }>()
  for (const { graderId, graderName, standard, on, state } of bookings) {
    if (!graderId || state !== 'booked' || on > filters.until || !standards.includes(standard)) continue
    graders.set(graderId, { name: graderName ?? '', tests: (graders.get(graderId)?.tests ?? 0) + 1 })
  }
  if (graders.size === 0 && !filters.away) return null
  return (
    <fieldset>
      <legend>A grader away</legend>
      <SelectField
        label="Who, until then"
        value={filters.away}
        onChange={(event) => filters.set({ away: event.target.value })}
      >
        <option value="">Nobody</option>
        {[...graders]
          .sort(([, a], [, b]) => (a.name < b.name ? -1 : 1))
          .map(([id, { name, tests }]) => (
            <option key={id} value={id}>
              {name}, {counted(tests, 'test')}
            </option>
          ))}
      </SelectField>
    </fieldset>
  )
}

interface CeremonyMovedProps {
  filters: WhatIfFilters
  need: NonNullable<ReadinessForecast['need']>
  on: string
}

function CeremonyMoved({ filters: { ceremony, movedTo, set }, need, on }: CeremonyMovedProps) {
  const chosen = ceremony || (need.ceremonies[0]?.id ?? '')
  return (
    <fieldset>
      <legend>A ceremony moved</legend>
      <SelectField label="Ceremony" value={chosen} onChange={(event) => set({ ceremony: event.target.value })}>
        {need.ceremonies.map(({ id, title }) => (
          <option key={id} value={id}>
            {title}
          </option>
        ))}
      </SelectField>
      <DateField
        label="To"
        value={movedTo || on}
        onDay={(day) => set(day === on ? { ceremony: '', movedTo: '' } : { ceremony: chosen, movedTo: day })}
      />
    </fieldset>
  )
}

function PlanBooked({ filters, unitId, today }: Pick<WhatIfFieldsProps, 'filters' | 'unitId' | 'today'>) {
  const mayPlan = useMay('plan-test-days')
  const ask = useMutation({
    mutationFn: (unit: string) => askPlan({ kind: 'retests', unitId: unit, from: today, to: filters.until }),
    onSuccess: ({ id }) => filters.set({ planned: id }),
  })
  if (!mayPlan || (!unitId && !filters.planned)) return null
  return (
    <fieldset>
      <legend>A retest plan booked</legend>
      {filters.planned ? (
        <Button onClick={() => filters.set({ planned: '' })}>Without the plan</Button>
      ) : (
        <Button onClick={() => ask.mutate(unitId!)} disabled={ask.isPending}>
          With all open retests planned until then
        </Button>
      )}
      {ask.error && <Failure error={ask.error} />}
    </fieldset>
  )
}

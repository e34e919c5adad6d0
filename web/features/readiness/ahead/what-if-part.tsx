import { useQuery } from '@tanstack/react-query'
import type { ReadinessForecast } from '#contract/readiness-forecast/readiness-forecast.ts'
import { whatIfQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { testDaysQuery } from '../../../api/test-days/test-days.ts'
import { sayExpected, sayInTen } from '../../../domain/readiness/say-ahead.ts'
import { Button } from '../../../ui/button.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { sayDay } from '../../../words/say-day.ts'
import { counted, figure } from '../../../words/say-number.ts'
import './ahead.css'

interface WhatIfProps {
  unitId: string | undefined
  certification: string
  on: string
  today: string
  standards: readonly string[]
  standardTitle: (code: string) => string
}

const USUAL_SLOTS = '8'

/** The answer as things are booked beside what it would be with a test day more or slots fewer; kept in the address alone. */
export function WhatIfPart({ unitId, certification, on, today, standards, standardTitle }: WhatIfProps) {
  const [filters, setFilters] = useFilters(['moreOn', 'moreOf', 'moreSlots', 'fewerOn', 'fewerSlots'])
  const moreOf = standards.includes(filters.moreOf) ? filters.moreOf : (standards[0] ?? '')
  const slots = filters.moreSlots || USUAL_SLOTS
  const more = filters.moreOn && filters.moreOn <= on ? `${filters.moreOn}/${moreOf}/${slots}` : ''
  const fewer = filters.fewerOn ? `${filters.fewerOn}/${filters.fewerSlots || '1'}` : ''
  const days = useQuery(testDaysQuery({ from: today, through: on })).data ?? []
  const query = useQuery(whatIfQuery({ unitId, certification, on, more, fewer }))
  const found = more || fewer ? query.data : undefined
  const isSet = filters.moreOn !== '' || filters.fewerOn !== ''
  return (
    <Section title="What if" note="nothing is stored; the link keeps it">
      <div className="ahead-if no-print">
        <DateField
          label="A test day more, on"
          value={filters.moreOn}
          optional
          onDay={(day) => setFilters({ moreOn: day })}
        />
        <SelectField label="Test" value={moreOf} onChange={(event) => setFilters({ moreOf: event.target.value })}>
          {standards.map((code) => (
            <option key={code} value={code}>
              {standardTitle(code)}
            </option>
          ))}
        </SelectField>
        <TextField
          label="Slots"
          type="number"
          min="1"
          max="999"
          value={slots}
          onChange={(event) => setFilters({ moreSlots: event.target.value })}
        />
        <SelectField
          label="Slots fewer, on"
          value={filters.fewerOn}
          onChange={(event) => setFilters({ fewerOn: event.target.value })}
        >
          <option value="">No day</option>
          {days
            .filter(({ calledOff, bookings }) => !calledOff && bookings > 0)
            .map(({ id, on: day, bookings }) => (
              <option key={id} value={id}>
                {sayDay(day, today)}, {counted(bookings, 'booking')}
              </option>
            ))}
        </SelectField>
        <TextField
          label="So many fewer"
          type="number"
          min="1"
          max="999"
          value={filters.fewerSlots || '1'}
          onChange={(event) => setFilters({ fewerSlots: event.target.value })}
        />
        {isSet && <Button onClick={() => setFilters({ moreOn: '', fewerOn: '' })}>As it is booked</Button>}
      </div>
      {filters.moreOn > on && (
        <p className="part-answer">A test day after that day changes nothing. Pick an earlier one.</p>
      )}
      {(more || fewer) && query.error && <Failure error={query.error} onRetry={() => query.refetch()} />}
      {found && (
        <>
          <Table<Line>
            caption="As it is booked and what if"
            rows={linesOf(found.before, found.after)}
            rowKey={({ what }) => what}
            columns={[
              { head: 'Of those required', tight: true, cell: ({ what }) => <b>{what}</b> },
              { head: 'As it is booked', bare: true, cell: ({ before }) => before },
              { head: 'What if', bare: true, cell: ({ after }) => after },
            ]}
          />
          {found.free > 0 && (
            <p className="rests-on">
              {counted(found.free, 'slot')} more would stay free: nobody else lacks that test and may take it by then.
            </p>
          )}
        </>
      )}
    </Section>
  )
}

interface Line {
  what: string
  before: string
  after: string
}

function linesOf(before: ReadinessForecast, after: ReadinessForecast): Line[] {
  const line = (what: string, say: (one: ReadinessForecast) => string): Line => {
    return { what, before: say(before), after: say(after) }
  }
  return [
    line('Certified', sayExpected),
    line('With a test booked', ({ booked }) => figure(booked)),
    ...(before.need ? [line('Enough for the ceremonies', ({ need }) => (need ? sayInTen(need.chance) : ''))] : []),
  ]
}

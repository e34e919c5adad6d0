import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { addDays } from '#calendar/plain-date.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { testDaysQuery } from '../../api/test-days/test-days.ts'
import { useMay } from '../../api/use-may.ts'
import { fullUnitName, timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { dayFact } from '../../parts/readiness/facts.ts'
import { UnitField } from '../../parts/soldiers/unit-field.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatDay } from '../../words/format-day.ts'
import { figure } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { formatAhead, formatDayState } from './format-test-days.ts'
import { PlanForm } from './plan-form.tsx'

/** The test days ahead, or those of the past, and a way to plan one. */
export default function TestDaysPage() {
  const [filters, setFilters] = useFilters(['when', 'unitId'])
  const tree = useQuery(unitsQuery).data
  const units = tree ?? []
  const hasUnits = tree?.length !== 0
  const mayPlan = useMay('plan-test-days')
  const today = todayIn(timeZoneOf(units, filters.unitId))
  const isPast = filters.when === 'past'
  const span = isPast ? { through: addDays(today, -1) } : { from: today }
  const days = useQuery(testDaysQuery({ ...span, unitId: filters.unitId || undefined }))
  const list = isPast ? days.data : days.data?.toReversed()
  return (
    <Page
      title="Test days"
      answer={list && formatAhead(list, isPast, today)}
      why={list && 'A test day has slots by time and grader; each takes one test.'}
      error={list ? null : days.error}
      onRetry={days.refetch}
      busy={days.isPlaceholderData}
      controls={
        <>
          <SelectField label="Show" value={filters.when} onChange={(event) => setFilters({ when: event.target.value })}>
            <option value="">Ahead</option>
            <option value="past">Past</option>
          </SelectField>
          <UnitField units={units} value={filters.unitId} onUnit={(unitId) => setFilters({ unitId })} />
        </>
      }
    >
      <Section title={isPast ? 'Past' : 'Ahead'}>
        {list?.length === 0 && (
          <Empty>
            {isPast ? 'There was none.' : 'None is planned.'}
            {isPast && <FilledBy steps={['test-days']} />}
            {!isPast && mayPlan && (hasUnits ? ' Plan one below, then make its slots.' : <UnitsFirst />)}
          </Empty>
        )}
        {list && list.length > 0 && (
          <Table<(typeof list)[number]>
            caption="Test days"
            rows={list}
            rowKey={({ id }) => id}
            columns={[
              {
                head: 'Day',
                facts: [dayFact('Day', ({ on }) => on)],
                tight: true,
                cell: ({ id, on }) => (
                  <Link href={addressTo(paths.testDay, { id })}>
                    <b>{formatDay(on, today)}</b>
                  </Link>
                ),
              },
              { head: 'Place', bare: true, cell: ({ place }) => <bdi>{place}</bdi> },
              { head: 'Unit', bare: true, cell: ({ unitId }) => <bdi>{fullUnitName(units, unitId)}</bdi> },
              { head: 'Slots', numeric: true, cell: ({ slots }) => figure(slots) },
              { head: 'Free', numeric: true, cell: ({ freeSlots }) => figure(freeSlots) },
              { head: mayPlan ? 'Booked' : 'Yours booked', numeric: true, cell: ({ bookings }) => figure(bookings) },
              { head: 'Sheets', numeric: true, cell: ({ sheets }) => figure(sheets) },
              { head: 'State', bare: true, cell: (day) => formatDayState(day, today) },
            ]}
          />
        )}
      </Section>
      {mayPlan && hasUnits && (
        <Section title="Plan a test day" className="no-print">
          <PlanForm units={units} today={today} />
        </Section>
      )}
    </Page>
  )
}

function UnitsFirst() {
  return (
    <>
      {' A test day is held for a unit, and there is none yet.'}
      <FilledBy steps={['units']} />
    </>
  )
}

import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { Link } from 'wouter'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { peopleCountQuery, peopleQuery } from '../../api/soldiers/people.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { useMay } from '../../api/use-may.ts'
import { listName } from '../../domain/soldiers/format-person.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { fact } from '../../parts/readiness/facts.ts'
import { UnitOptions } from '../../parts/soldiers/unit-options.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { today as todayIn } from '../../words/today.ts'
import { AddSoldierForm } from './add-soldier-form.tsx'
import { formatPeople, formatWhere, STRENGTH_CHOICES } from './format-people.ts'
import { withChosen } from './known.ts'
import './people.css'

/** The people of a day. What is typed to search stays out of the address: names do not belong there. */
export default function PeoplePage() {
  const [filters, setFilters] = useFilters(['on', 'unitId', 'grade', 'arm', 'strength'])
  const [typed, setTyped] = useState('')
  const [adding, setAdding] = useState(false)
  const q = useDeferredValue(typed.trim())
  const mayManage = useMay('manage-people')
  const units = useQuery(unitsQuery).data ?? []
  const lists = useQuery(listsQuery).data
  const today = todayIn()
  const { on, unitId, grade, arm } = filters
  const strength = filters.strength in STRENGTH_CHOICES ? filters.strength : 'serving'
  const asked = { asOf: on, unitId, grade, arm, strength, q }
  const wanted = Object.fromEntries(Object.entries(asked).filter(([, value]) => value !== ''))
  const pages = useInfiniteQuery(peopleQuery(wanted))
  const count = useQuery(peopleCountQuery(wanted))
  const soldiers = pages.data?.pages.flatMap(({ items }) => items)
  return (
    <Page
      title="People"
      answer={soldiers && count.data && formatPeople(count.data.count, strength, on || today, today)}
      why={
        <>
          Unit, grade, arms and strength are kept by period, so any day shows its own people.{' '}
          <Link href={addressTo(paths.requirements, { unitId })}>Who must hold what</Link>
        </>
      }
      error={soldiers && count.data ? null : (pages.error ?? count.error)}
      onRetry={() => Promise.all([pages.refetch(), count.refetch()])}
      busy={pages.isPlaceholderData}
      controls={
        <>
          <TextField
            label="Number, name or grade"
            type="search"
            autoComplete="off"
            spellCheck={false}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />
          <SelectField label="Unit" value={unitId} onChange={(event) => setFilters({ unitId: event.target.value })}>
            <option value="">All units</option>
            <UnitOptions units={units} />
          </SelectField>
          <SelectField
            label="Strength"
            value={strength}
            onChange={(event) => setFilters({ strength: event.target.value })}
          >
            {Object.entries(STRENGTH_CHOICES).map(([value, text]) => (
              <option key={value} value={value}>
                {text}
              </option>
            ))}
          </SelectField>
          <SelectField label="Grade" value={grade} onChange={(event) => setFilters({ grade: event.target.value })}>
            <option value="">Any</option>
            {withChosen(lists?.grades ?? [], grade).map((one) => (
              <option key={one}>{one}</option>
            ))}
          </SelectField>
          <SelectField label="Arm" value={arm} onChange={(event) => setFilters({ arm: event.target.value })}>
            <option value="">Any</option>
            {withChosen(lists?.arms ?? [], arm).map((one) => (
              <option key={one}>{one}</option>
            ))}
          </SelectField>
          <DateField label="As of" value={on || today} onDay={(day) => setFilters({ on: day === today ? '' : day })} />
          {mayManage && (
            <Button kind="main" className="push" onClick={() => setAdding(true)}>
              Add a soldier
            </Button>
          )}
        </>
      }
    >
      {adding && (
        <Section title="Add a soldier">
          <AddSoldierForm units={units} onCancel={() => setAdding(false)} />
        </Section>
      )}
      {soldiers && (
        <Section title="Soldiers" note="by roster number">
          {soldiers.length === 0 ? (
            <Empty>
              <p>Take back a filter, or choose another day.</p>
              <FilledBy steps={['roster']} />
            </Empty>
          ) : (
            <Table<(typeof soldiers)[number]>
              caption="Soldiers"
              pages={pages}
              rows={soldiers}
              rowKey={({ id }) => id}
              columns={[
                {
                  head: 'Soldier',
                  facts: [
                    fact('Grade', ({ grade }) => grade),
                    fact('Name', ({ familyName, givenName }) => `${familyName}, ${givenName}`),
                  ],
                  cell: (soldier) => (
                    <Link href={addressTo(paths.person, { id: soldier.id })}>
                      <b>
                        <bdi>{listName(soldier)}</bdi>
                      </b>
                    </Link>
                  ),
                },
                { head: 'Roster number', bare: true, cell: ({ rosterNumber }) => rosterNumber },
                { head: 'Unit', bare: true, cell: (soldier) => formatWhere(soldier, units, today) },
                { head: 'Arms', cell: ({ arms }) => arms.join(', ') || 'none' },
              ]}
            />
          )}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show more soldiers
          </More>
        </Section>
      )}
    </Page>
  )
}

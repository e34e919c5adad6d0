import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { Link } from 'wouter'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { peopleCountQuery, peopleQuery } from '../../api/soldiers/people.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { useMay } from '../../api/use-may.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { today as todayIn } from '../../words/today.ts'
import { AddSoldierForm } from './add-soldier-form.tsx'
import { formatPeople, STRENGTH_CHOICES } from './format-people.ts'
import './people.css'
import { ListControls } from './list-controls.tsx'
import { SoldiersTable } from './soldiers-table.tsx'

/** The people of a day. What is typed to search stays out of the address: names do not belong there. */
export default function PeoplePage() {
  const [filters, setFilters] = useFilters(['on', 'unitId', 'grade', 'arm', 'strength'])
  const [typed, setTyped] = useState('')
  const [adding, setAdding] = useState(false)
  const q = useDeferredValue(typed.trim())
  const mayManage = useMay('manage-people')
  const units = useQuery(unitsQuery).data ?? []
  const lists = useQuery(listsQuery).data
  const carries = carriesArms(lists)
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
          Unit, grade and strength are kept by period, so any day shows its own people.{' '}
          <Link href={addressTo(paths.requirements, { unitId })}>Who must hold what</Link>
        </>
      }
      error={soldiers && count.data ? null : (pages.error ?? count.error)}
      onRetry={() => Promise.all([pages.refetch(), count.refetch()])}
      busy={pages.isPlaceholderData}
      controls={
        <>
          <ListControls
            filters={{ ...filters, strength }}
            onChange={setFilters}
            typed={typed}
            onTyped={setTyped}
            units={units}
            lists={lists}
            today={today}
          />
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
              <p>
                {Object.keys(wanted).length > 1 || strength !== 'serving'
                  ? 'Clear a filter, or choose another day.'
                  : 'Nobody is on the roster yet. Bring it in from a file, paste it from a spreadsheet, or add one by one.'}
              </p>
              <FilledBy steps={['roster']} />
            </Empty>
          ) : (
            <SoldiersTable soldiers={soldiers} pages={pages} units={units} carries={carries} today={today} />
          )}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show more soldiers
          </More>
        </Section>
      )}
    </Page>
  )
}

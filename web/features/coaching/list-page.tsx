import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { Link } from 'wouter'
import type { Soldier } from '#contract/soldiers/soldiers.ts'
import { rosterQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { listName } from '../../domain/soldiers/format-person.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { fact } from '../../parts/readiness/facts.ts'
import { UnitField } from '../../parts/soldiers/unit-field.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { TextField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted } from '../../words/format-number.ts'

const ARMS = { head: 'Arms', bare: true, cell: ({ arms }: Soldier) => arms.join(', ') }

/** Find a soldier by roster number or name, or leaf through a unit. What is typed stays out of the address: names do not belong there. */
export default function CandidatesPage() {
  const [filters, setFilters] = useFilters(['unitId'])
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(typed.trim())
  const units = useQuery(unitsQuery).data ?? []
  const roster = useInfiniteQuery(rosterQuery({ q: asked || undefined, unitId: filters.unitId || undefined }))
  const soldiers = roster.data?.pages.flatMap(({ items }) => items)

  return (
    <Page
      title="Candidates"
      answer="Whose attempts do you want to see?"
      why="Type a roster number or the start of a name, or choose a unit."
      error={soldiers ? null : roster.error}
      onRetry={roster.refetch}
      busy={roster.isPlaceholderData}
      controls={
        <>
          <TextField
            label="Roster number or name"
            type="search"
            autoComplete="off"
            spellCheck={false}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />
          <UnitField units={units} value={filters.unitId} onUnit={(unitId) => setFilters({ unitId })} />
        </>
      }
    >
      {soldiers && (
        <Section
          title="Soldiers"
          note={roster.hasNextPage ? `the first ${soldiers.length}` : counted(soldiers.length, 'soldier')}
        >
          {soldiers.length === 0 ? (
            <Empty>
              <p>
                {asked
                  ? 'Nobody with this number or name is on the roster here.'
                  : 'Nobody is on the roster of this unit today.'}
              </p>
              <FilledBy steps={['roster']} />
            </Empty>
          ) : (
            <Table<(typeof soldiers)[number]>
              caption="Soldiers"
              pages={roster}
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
                    <Link href={addressTo(paths.candidate, { id: soldier.id })}>
                      <b>
                        <bdi>{listName(soldier)}</bdi>
                      </b>
                    </Link>
                  ),
                },
                { head: 'Roster number', bare: true, cell: ({ rosterNumber }) => rosterNumber },
                { head: 'Unit', bare: true, cell: ({ unitId }) => fullUnitName(units, unitId) || 'left' },
                ...(soldiers.some(({ arms }) => arms.length > 0) ? [ARMS] : []),
              ]}
            />
          )}
          <More hasMore={roster.hasNextPage} loading={roster.isFetchingNextPage} onMore={roster.fetchNextPage}>
            Show more soldiers
          </More>
        </Section>
      )}
    </Page>
  )
}

import { useInfiniteQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { readinessQuery } from '../../../api/readiness/readiness.ts'
import { sayHowManyBooked } from '../../../domain/readiness/say-reason.ts'
import { ReadinessTable } from '../../../parts/readiness/readiness-table.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Failure } from '../../../ui/failure.tsx'
import { More } from '../../../ui/more.tsx'
import { Section } from '../../../ui/section.tsx'
import { counted } from '../../../words/say-number.ts'

interface NotStandingProps {
  unitId: string | undefined
  units: readonly Unit[]
  certifications: readonly Certification[]
  standardTitle: (code: string) => string
  today: string
}

const ROWS = 50

/** Who may not stand today, of a unit and all below it, or of everybody in scope. */
export const notStandingQuery = (unitId: string | undefined, sort = 'state') =>
  readinessQuery({ unitId, standing: 'cannot', sort }, ROWS)

/** Who of one's own may not stand today: why, since when, and which test is booked. */
export function NotStanding({ unitId, today, ...words }: NotStandingProps) {
  const [sort, setSort] = useState('state')
  const query = useInfiniteQuery(notStandingQuery(unitId, sort))
  const items = query.data?.pages.flatMap((page) => page.items) ?? []
  const first = query.data?.pages[0]
  const note = query.hasNextPage
    ? `the first ${counted(items.length, 'row')}`
    : [counted(items.length, 'row'), sayHowManyBooked(items)].filter(Boolean).join('; ')
  return (
    <Section
      title="Who may not stand today"
      note={first && items.length > 0 ? note : undefined}
      more={<Link href={addressTo(paths.stand, { standing: 'cannot', unitId })}>On another day</Link>}
    >
      {query.error && !first && <Failure error={query.error} onRetry={() => query.refetch()} />}
      {first && items.length === 0 && <p className="muted">Everybody who must be certified can stand today.</p>}
      {first && items.length > 0 && (
        <ReadinessTable
          {...words}
          items={items}
          asOf={first.asOf}
          today={today}
          posts={null}
          pages={query}
          sorting={{ by: sort, onSort: setSort }}
        />
      )}
      <More hasMore={query.hasNextPage} loading={query.isFetchingNextPage} onMore={query.fetchNextPage}>
        Show more soldiers
      </More>
    </Section>
  )
}

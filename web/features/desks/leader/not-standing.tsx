import { useInfiniteQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { readinessQuery } from '../../../api/readiness/readiness.ts'
import { formatHowManyBooked } from '../../../domain/readiness/format-reason.ts'
import { ReadinessTable } from '../../../parts/readiness/readiness-table.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { More } from '../../../ui/more.tsx'
import { Section } from '../../../ui/section.tsx'
import { useMedia } from '../../../ui/use-media.ts'
import { counted } from '../../../words/format-number.ts'

interface NotStandingProps {
  unitId: string | undefined
  units: readonly Unit[]
  certifications: readonly Certification[]
  standardTitle: (code: string) => string
  today: string
}

const ROWS = 50
/** On a phone, until asked for all. */
const FEW = 4

/** Who may not stand today, of a unit and all below it, or of everybody in scope. */
export const notStandingQuery = (unitId: string | undefined, sort = 'state') =>
  readinessQuery({ unitId, standing: 'cannot', sort }, ROWS)

/** Who of one's own may not stand today: why, since when, and which test is booked. */
export function NotStanding({ unitId, today, ...words }: NotStandingProps) {
  const [sort, setSort] = useState('state')
  const [all, setAll] = useState(false)
  const isNarrow = useMedia('(max-width: 47.99rem)')
  const query = useInfiniteQuery(notStandingQuery(unitId, sort))
  const items = query.data?.pages.flatMap((page) => page.items) ?? []
  const first = query.data?.pages[0]
  const isFolded = isNarrow && !all && items.length > FEW
  const note = query.hasNextPage
    ? `the first ${counted(items.length, 'row')}`
    : [counted(items.length, 'row'), formatHowManyBooked(items)].filter(Boolean).join('; ')
  return (
    <Section
      title="Who may not stand today"
      note={first && items.length > 0 ? note : undefined}
      more={<Link href={addressTo(paths.stand, { standing: 'cannot', unitId })}>On another day</Link>}
    >
      {query.error && !first && <Failure error={query.error} onRetry={() => query.refetch()} />}
      {first && items.length === 0 && <p className="muted">Everybody who must be certified can stand today.</p>}
      {first && items.length > 0 && (
        <div className={isFolded ? 'not-standing-few' : undefined}>
          <ReadinessTable
            {...words}
            items={items}
            asOf={first.asOf}
            today={today}
            posts={null}
            pages={query}
            sorting={{ by: sort, onSort: setSort }}
          />
        </div>
      )}
      {isFolded && <Button onClick={() => setAll(true)}>Show all {counted(items.length, 'row')}</Button>}
      <More hasMore={query.hasNextPage && !isFolded} loading={query.isFetchingNextPage} onMore={query.fetchNextPage}>
        Show more soldiers
      </More>
    </Section>
  )
}

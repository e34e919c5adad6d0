import { useInfiniteQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { CeremonySummary } from '#contract/ceremonies/ceremonies.ts'
import { ceremonyListQuery } from '../../api/ceremonies/ceremonies.ts'
import { useMay } from '../../api/use-may.ts'
import { formatTimes } from '../../domain/ceremonies/format-ceremony.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { PostBar, PostsFilled } from '../../parts/ceremonies/post-bar.tsx'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { dayFact, fact, momentFact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { DateField } from '../../ui/date-field.tsx'
import { Empty } from '../../ui/empty.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import type { Pages } from '../../ui/table-files.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { capital, countedInWords, inWords, plural } from '../../words/format-number.ts'
import { useWords, type Words } from './use-words.ts'

/** Every ceremony from a day on, with its posts filled and short. */
export default function CeremoniesPage() {
  const [filters, setFilters] = useFilters(['from', 'cancelled'])
  const words = useWords()
  const { today } = words
  const mayPlan = useMay('plan-ceremonies')
  const list = useInfiniteQuery(
    ceremonyListQuery({
      ...(filters.from ? { from: filters.from } : {}),
      ...(filters.cancelled ? { cancelled: 'with' as const } : {}),
    }),
  )
  const items = list.data?.pages.flatMap((page) => page.items)
  return (
    <Page
      title="Ceremonies"
      answer={items && formatCeremonies(items, filters.from, today, list.hasNextPage)}
      why={items && formatShort(items)}
      error={items ? null : list.error}
      onRetry={() => list.refetch()}
      busy={list.isPlaceholderData}
      controls={
        <>
          <DateField
            label="From"
            value={filters.from || today}
            onDay={(from) => setFilters({ from: from === today ? '' : from })}
          />
          <label className="tick">
            <input
              type="checkbox"
              checked={filters.cancelled !== ''}
              onChange={(event) => setFilters({ cancelled: event.target.checked ? 'with' : '' })}
            />
            Also those called off
          </label>
          {mayPlan && (
            <Link href={paths.newCeremony} className="button button-main push">
              Plan a ceremony
            </Link>
          )}
        </>
      }
    >
      {items?.length === 0 && (
        <Empty>
          <p>No ceremony is planned from that day on. {mayPlan ? 'Plan one, or pick' : 'Pick'} an earlier day.</p>
          <FilledBy steps={['ceremonies']} />
        </Empty>
      )}
      {items && items.length > 0 && (
        <Section title="In order of time" note="posts filled and short">
          <CeremonyTable items={items} pages={list} words={words} />
        </Section>
      )}
      <More hasMore={list.hasNextPage} loading={list.isFetchingNextPage} onMore={() => list.fetchNextPage()}>
        More ceremonies
      </More>
    </Page>
  )
}

interface CeremonyTableProps {
  items: readonly CeremonySummary[]
  pages: Pages
  words: Pick<Words, 'units' | 'zone' | 'today'>
}

function CeremonyTable({ items, pages, words: { units, zone, today } }: CeremonyTableProps) {
  return (
    <Table<CeremonySummary>
      pages={pages}
      caption="Ceremonies in order of time"
      rows={items}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Ceremony',
          cell: ({ id, title }) => (
            <Link href={addressTo(paths.ceremony, { id })}>
              <b>
                <bdi>{title}</bdi>
              </b>
            </Link>
          ),
        },
        {
          head: 'When',
          facts: [
            dayFact('Day', ({ day }) => day),
            momentFact('Starts', ({ startsAt }) => startsAt),
            momentFact('Ends', ({ endsAt }) => endsAt),
          ],
          bare: true,
          tight: 'wide',
          cell: (ceremony) => formatTimes(ceremony, today, zone),
        },
        { head: 'Where', bare: true, cell: ({ place }) => place },
        { head: 'Unit', bare: true, cell: ({ unitId }) => fullUnitName(units, unitId) },
        {
          head: 'Posts',
          facts: [fact('Posts', ({ posts }) => posts), fact('Called off because', ({ cancelReason }) => cancelReason)],
          bare: true,
          cell: ({ posts, filled, cancelReason }) =>
            cancelReason === null ? <PostBar posts={posts} filled={filled} /> : `Called off: ${cancelReason}`,
        },
        {
          head: 'Filled',
          facts: [fact('Filled', ({ filled }) => filled)],
          bare: true,
          tight: true,
          cell: ({ posts, filled, cancelReason }) =>
            cancelReason === null ? <PostsFilled posts={posts} filled={filled} /> : null,
        },
      ]}
    />
  )
}

const formatCeremonies = (items: readonly CeremonySummary[], from: string, today: string, hasMore: boolean): string => {
  const on = items.filter(({ cancelReason }) => cancelReason === null)
  const many = `${hasMore ? 'at least ' : ''}${countedInWords(on.length, 'ceremony', 'ceremonies')}`
  const since = from && from !== today ? ` from ${formatDayInFull(from, today)} on` : ' to come'
  return `${capital(many)}${since}.`
}

const formatShort = (items: readonly CeremonySummary[]): string => {
  const short = items.filter(({ cancelReason, posts, filled }) => cancelReason === null && filled < posts)
  if (items.length === 0) return ''
  if (short.length === 0) return 'Every post is filled.'
  return `${capital(inWords(short.length))} ${plural(short.length, 'is', 'are')} short of somebody.`
}

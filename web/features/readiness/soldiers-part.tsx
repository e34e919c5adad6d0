import { standardTitle } from '../../domain/standards/titles.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { ReadinessTable } from '../../parts/readiness/readiness-table.tsx'
import { Empty } from '../../ui/empty.tsx'
import { More } from '../../ui/more.tsx'
import { Section } from '../../ui/section.tsx'
import { counted } from '../../words/format-number.ts'
import { isStanding, type Stand } from './use-stand.ts'

const SHOWN: Record<string, string> = { can: 'Who can stand', cannot: 'Who may not stand' }

/** Soldier by soldier: who stands how, in the order and narrowed as asked. */
export function SoldiersPart({ stand }: { stand: Stand }) {
  const { filters, setFilters, words, readiness, items, shown } = stand
  if (items.length === 0) {
    if (!isStanding(filters.standing)) return null
    return (
      <Empty>
        <p>
          {filters.standing === 'can'
            ? 'Nobody here can stand that day.'
            : 'Everybody here who must be certified can stand that day.'}
        </p>
        <FilledBy steps={['certifications', 'roster']} />
      </Empty>
    )
  }
  return (
    <Section
      title={SHOWN[filters.standing] ?? 'Soldiers'}
      note={readiness.hasNextPage ? `the first ${counted(items.length, 'row')}` : counted(items.length, 'row')}
    >
      <ReadinessTable
        pages={readiness}
        items={items}
        sorting={{
          by: filters.sort || 'state',
          onSort: (sort) => setFilters({ sort: sort === 'state' ? '' : sort }),
        }}
        asOf={stand.asOf}
        today={stand.today}
        units={words.units}
        certifications={words.certifications}
        standardTitle={(code) => standardTitle(words.standards, code)}
        posts={shown ? new Map(shown.formation.map((post) => [post.soldier?.id ?? '', post.title])) : null}
      />
      <More hasMore={readiness.hasNextPage} loading={readiness.isFetchingNextPage} onMore={readiness.fetchNextPage}>
        Show more soldiers
      </More>
    </Section>
  )
}

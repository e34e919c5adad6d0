import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification, Readiness } from '#contract/standards/certifications.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { dayFact, fact, soldierFacts } from '../../parts/readiness/facts.ts'
import { StateWord } from '../../ui/state-mark.tsx'
import { type Column, Table } from '../../ui/table.tsx'
import type { Pages } from '../../ui/table-files.tsx'
import { sayDay } from '../../words/say-day.ts'
import { sayNote } from './say-note.ts'

type Item = Readiness['items'][number]

interface RosterProps {
  items: readonly Item[]
  asOf: string
  today: string
  units: readonly Unit[]
  certifications: readonly Certification[]
  standardTitle: (code: string) => string
  /** Post at the ceremony by soldier id; null without a ceremony. */
  posts: ReadonlyMap<string, string> | null
  pages: Pages
}

/** The list behind the picture: one row a soldier and certification. */
export function Roster({ items, asOf, today, units, certifications, standardTitle, posts, pages }: RosterProps) {
  const manyUnits = new Set(items.map(({ unitId }) => unitId)).size > 1
  const columns: Column<Item>[] = [
    {
      head: 'Soldier',
      facts: [...soldierFacts<Item>(true)],
      tight: 'wide',
      cell: (item) => (
        <>
          <Link href={`/candidates/${item.soldierId}`}>
            <b>
              <bdi>
                {item.grade} {item.name}
              </bdi>
            </b>
          </Link>{' '}
          <span className="muted">{item.rosterNumber}</span>
        </>
      ),
    },
    ...(manyUnits
      ? [{ head: 'Unit', bare: true, tight: 'wide' as const, cell: (item: Item) => fullUnitName(units, item.unitId) }]
      : []),
    { head: 'Certification', bare: true, cell: (item) => certificationTitle(certifications, item.certification) },
    {
      head: asOf === today ? 'Today' : `On ${sayDay(asOf, today)}`,
      facts: [dayFact('As of', () => asOf), fact('State', ({ status }) => status)],
      bare: true,
      cell: (item) => <StateWord state={item.status} />,
    },
    {
      head: 'Valid through',
      facts: [dayFact('Valid through', ({ validThrough }) => validThrough)],
      tight: true,
      cell: (item) => (item.validThrough ? sayDay(item.validThrough, today) : ''),
    },
    ...(posts ? [{ head: 'Post', cell: (item: Item) => posts.get(item.soldierId) ?? '' }] : []),
    { head: 'Note', bare: true, className: 'muted', cell: (item) => sayNote(item, asOf, today, standardTitle) },
  ]
  return (
    <Table
      caption="Soldiers and how they stand"
      columns={columns}
      rows={items}
      pages={pages}
      rowKey={(item) => `${item.soldierId} ${item.certification}`}
    />
  )
}

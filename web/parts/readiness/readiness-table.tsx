import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification, Readiness } from '#contract/standards/certifications.ts'
import { formatBooked, formatReason } from '../../domain/readiness/format-reason.ts'
import { fullUnitName, timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'
import { StateWord } from '../../ui/state-mark.tsx'
import { type Column, type Sorting, Table } from '../../ui/table.tsx'
import type { Pages } from '../../ui/table-files.tsx'
import { formatDay } from '../../words/format-day.ts'
import { dayFact, fact, soldierFacts } from './facts.ts'

type Item = Readiness['items'][number]

interface ReadinessTableProps {
  items: readonly Item[]
  asOf: string
  today: string
  units: readonly Unit[]
  certifications: readonly Certification[]
  standardTitle: (code: string) => string
  /** Post at the ceremony by soldier id; null without a ceremony. */
  posts: ReadonlyMap<string, string> | null
  pages: Pages
  sorting: Sorting
}

/** One row a soldier and certification: how they stand, since when, why, and which test is booked. */
export function ReadinessTable({ items, posts, pages, sorting, ...words }: ReadinessTableProps) {
  const { asOf, today, units, certifications, standardTitle } = words
  const manyUnits = new Set(items.map(({ unitId }) => unitId)).size > 1
  const reasonWords = {
    asOf,
    today,
    zone: timeZoneOf(units, items[0]?.unitId),
    standardTitle,
    standardsOf: (code: string) => certifications.find((one) => one.code === code)?.standards ?? [],
  }
  const columns: Column<Item>[] = [
    {
      head: 'Soldier',
      facts: [...soldierFacts<Item>(true)],
      tight: 'wide',
      sort: 'name',
      cell: (item) => (
        <>
          <Link href={addressTo(paths.candidate, { id: item.soldierId })}>
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
      ? [{ head: 'Unit', bare: true, sort: 'unit', cell: (item: Item) => fullUnitName(units, item.unitId) }]
      : []),
    { head: 'Certification', bare: true, cell: (item) => certificationTitle(certifications, item.certification) },
    {
      head: asOf === today ? 'Today' : `On ${formatDay(asOf, today)}`,
      facts: [dayFact('As of', () => asOf), fact('State', ({ status }) => status)],
      bare: true,
      tight: true,
      sort: 'state',
      cell: (item) => <StateWord state={item.status} />,
    },
    {
      head: 'Since',
      facts: [dayFact('Since', ({ since }) => since)],
      tight: true,
      cell: ({ since }) => (since ? formatDay(since, today) : ''),
    },
    {
      head: 'Valid through',
      facts: [dayFact('Valid through', ({ validThrough }) => validThrough)],
      tight: true,
      className: 'no-print',
      sort: 'valid',
      cell: ({ validThrough, status }) =>
        validThrough && status === 'certified' ? formatDay(validThrough, today) : '',
    },
    ...(posts ? [{ head: 'Post', cell: (item: Item) => posts.get(item.soldierId) ?? '' }] : []),
    {
      head: 'Why',
      facts: [fact('Why', (item) => formatReason(item, reasonWords))],
      bare: true,
      cell: (item) => (
        <bdi>
          {item.validThrough && item.status === 'certified' && (
            <span className="print-only">Through {formatDay(item.validThrough, today)}. </span>
          )}
          {formatReason(item, reasonWords)}
        </bdi>
      ),
    },
    { head: 'Booked', cell: (item) => formatBooked(item, reasonWords) },
  ]
  const shown = columns.filter(
    ({ head }) => head !== 'Valid through' || items.some(({ status }) => status === 'certified'),
  )
  return (
    <Table
      caption="Soldiers and how they stand"
      columns={shown}
      rows={items}
      pages={pages}
      sorting={sorting}
      rowKey={(item) => `${item.soldierId} ${item.certification}`}
    />
  )
}

import type { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import type { LevelWords } from '../../domain/soldiers/levels.ts'
import { boundedFacts } from '../../parts/readiness/facts.ts'
import { Table } from '../../ui/table.tsx'
import { capital, figure } from '../../words/format-number.ts'
import { companyName } from './company-name.ts'
import { formatMedianInterval } from './format-time.ts'

type Times = TimeToCertify['items'][number]
type Curve = Times['all']

/** Soldiers, and days until half are certified, of each company (or what the unit has instead) and of all. */
export function Companies({ times, level }: { times: Times; level: LevelWords }) {
  const rows = [
    ...times.companies.map((curve) => ({
      key: curve.unitId ?? '',
      name: companyName(curve, level),
      curve: curve as Curve,
    })),
    { key: 'all', name: 'All together', curve: times.all },
  ]
  return (
    <Table<(typeof rows)[number]>
      caption={`By ${level.one}`}
      rows={rows}
      rowKey={({ key }) => key}
      columns={[
        { head: capital(level.one), cell: ({ name }) => <b>{name}</b> },
        { head: 'Soldiers', numeric: true, cell: ({ curve }) => figure(curve.soldiers) },
        { head: 'Certified', numeric: true, cell: ({ curve }) => figure(curve.certified) },
        { head: 'Still waiting', numeric: true, cell: ({ curve }) => figure(curve.waiting) },
        { head: 'Left', numeric: true, cell: ({ curve }) => figure(curve.left) },
        {
          head: 'Days until half are certified',
          facts: boundedFacts('Days until half are certified', ({ curve }) => ({
            value: curve.median,
            interval: curve.medianInterval,
          })),
          numeric: true,
          cell: ({ curve }) => (curve.median === null ? 'not reached' : figure(Math.round(curve.median))),
        },
        {
          head: 'Where that lies',
          facts: [],
          numeric: true,
          cell: ({ curve }) => formatMedianInterval(curve.medianInterval),
        },
      ]}
    />
  )
}

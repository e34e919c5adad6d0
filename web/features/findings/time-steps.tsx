import type { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import { boundedFacts } from '../../parts/readiness/facts.ts'
import { Table } from '../../ui/table.tsx'
import { figure } from '../../words/format-number.ts'
import { formatShare, formatShares } from '../../words/format-share.ts'

type Curve = TimeToCertify['items'][number]['all']

/** A curve day by day. */
export function Steps({ points }: Pick<Curve, 'points'>) {
  return (
    <Table<(typeof points)[number]>
      caption="Steps of the curve"
      rows={points}
      rowKey={({ day }) => String(day)}
      columns={[
        { head: 'Day', numeric: true, cell: ({ day }) => <b>{figure(day)}</b> },
        { head: 'In training', numeric: true, cell: ({ atRisk }) => figure(atRisk) },
        { head: 'Certified that day', numeric: true, cell: ({ certified }) => figure(certified) },
        { head: 'Left that day', numeric: true, cell: ({ left }) => (left > 0 ? figure(left) : '') },
        { head: 'Still waiting', numeric: true, cell: ({ censored }) => (censored > 0 ? figure(censored) : '') },
        {
          head: 'Certified by then',
          facts: boundedFacts('Certified by then', ({ uncertified, interval }) => ({
            value: 1 - uncertified,
            interval: interval && { low: 1 - interval.high, high: 1 - interval.low },
          })),
          numeric: true,
          tight: true,
          cell: ({ uncertified }) => formatShare(1 - uncertified),
        },
        {
          head: 'Where that lies',
          facts: [],
          numeric: true,
          tight: true,
          cell: ({ interval }) => interval && formatShares({ low: 1 - interval.high, high: 1 - interval.low }),
        },
      ]}
    />
  )
}

/** How many were certified, left or still wait after so many tests. */
export function Tests({ tests }: Pick<Curve, 'tests'>) {
  return (
    <Table
      caption="Tests it took"
      rows={tests.counts}
      rowKey={({ tests: count }) => String(count)}
      columns={[
        { head: 'Tests', numeric: true, cell: ({ tests: count }) => <b>{figure(count)}</b> },
        { head: 'Certified with them', numeric: true, cell: ({ certified }) => figure(certified) },
        { head: 'Left after them', numeric: true, cell: ({ left }) => (left > 0 ? figure(left) : '') },
        { head: 'Still waiting', numeric: true, cell: ({ waiting }) => (waiting > 0 ? figure(waiting) : '') },
        {
          head: 'Certified with this many or fewer',
          numeric: true,
          tight: true,
          cell: ({ certifiedShare }) => formatShare(certifiedShare),
        },
      ]}
    />
  )
}

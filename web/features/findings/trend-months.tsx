import type { TrendFindings } from '#contract/findings/trend.ts'
import { fact } from '../../parts/readiness/facts.ts'
import { Table } from '../../ui/table.tsx'
import { formatMonth } from '../../words/format-month.ts'
import { formatShare, formatShares } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'

type Series = TrendFindings['series'][number]

/** One chart month by month, in figures. */
export function Months({ points }: Pick<Series, 'points'>) {
  return (
    <Table<Series['points'][number]>
      caption="Months, the newest first"
      rows={[...points].reverse()}
      rowKey={({ month }) => month}
      columns={[
        {
          head: 'Month',
          facts: [fact('Month', ({ month }) => month)],
          tight: true,
          cell: ({ month }) => <b>{formatMonth(month)}</b>,
        },
        {
          head: 'NO-GO',
          facts: [fact('NO-GO', ({ count }) => count), fact('Tested', ({ n }) => n)],
          numeric: true,
          tight: true,
          cell: ({ count, n }) => (n > 0 ? ofAll(count, n) : 'nobody tested'),
        },
        {
          head: 'Share',
          facts: [fact('Share NO-GO', ({ rate }) => rate)],
          numeric: true,
          tight: true,
          cell: ({ rate }) => rate !== null && formatShare(rate),
        },
        {
          head: 'Limits',
          facts: [fact('Lower limit', ({ low }) => low), fact('Upper limit', ({ high }) => high)],
          numeric: true,
          tight: true,
          cell: ({ low, high }) => low !== null && high !== null && formatShares({ low, high }),
        },
        {
          head: 'Unusual',
          bare: true,
          cell: ({ signals, beyond }) =>
            signals.includes('beyond-limit')
              ? 'beyond the limits'
              : signals.length > 0
                ? 'eighth or later in a row on one side'
                : beyond && 'outside the lines, as chance has it',
        },
      ]}
    />
  )
}

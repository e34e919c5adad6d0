import { Link, useSearchParams } from 'wouter'
import type { TrendFindings } from '#contract/findings/trend.ts'
import { fact } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { Table } from '../../ui/table.tsx'
import { ofAll } from '../../words/of-all.ts'
import { formatUnusual } from './format-trend.ts'
import { trendKey } from './trend-key.ts'

type Series = TrendFindings['series'][number]

interface AllChartsProps {
  series: readonly Series[]
  nameOf: (one: Series) => string
  standardOf: (one: Series) => string
}

/** Every chart there is, with what is unusual about it, and the way to it. */
export function AllCharts({ series, nameOf, standardOf }: AllChartsProps) {
  const [params] = useSearchParams()
  const linkTo = (one: Series) => {
    const to = new URLSearchParams(params)
    to.set('chart', trendKey(one))
    return `${paths.trend}?${to}`
  }
  const rows = [...series].sort((a, b) => Number(formatUnusual(b) !== '') - Number(formatUnusual(a) !== ''))
  return (
    <Table<Series>
      caption="All charts, those with something unusual first"
      rows={rows}
      rowKey={trendKey}
      columns={[
        {
          head: 'Chart',
          facts: [fact('Chart', nameOf), fact('Standard', standardOf)],
          cell: (one) => (
            <>
              <Link href={linkTo(one)}>
                <b>{nameOf(one)}</b>
              </Link>{' '}
              {one.measure !== null && <span className="muted">{standardOf(one)}</span>}
            </>
          ),
        },
        {
          head: 'NO-GO',
          facts: [fact('NO-GO', ({ count }) => count), fact('Tested', ({ n }) => n)],
          numeric: true,
          tight: true,
          cell: ({ count, n }) => ofAll(count, n),
        },
        {
          head: 'Unusual',
          facts: [fact('Unusual', formatUnusual)],
          bare: true,
          cell: (one) => formatUnusual(one) || <span className="muted">nothing unusual</span>,
        },
      ]}
    />
  )
}

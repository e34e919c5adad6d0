import { Link, useSearchParams } from 'wouter'
import type { ReadingFindings } from '#contract/findings/readings.ts'
import { sayBand } from '../../domain/standards/say-band.ts'
import { paths } from '../../paths.ts'
import { Table } from '../../ui/table.tsx'
import { figure } from '../../words/say-number.ts'
import { gaugeKey } from './gauge-key.ts'
import { sayRate } from './say-failing.ts'

type Gauge = ReadingFindings['items'][number]

interface AllGaugesProps {
  gauges: readonly Gauge[]
  titleOf: (gauge: Gauge) => string
  standardOf: (gauge: Gauge) => string
}

/** Every gauge against its band, and the way to its picture. */
export function AllGauges({ gauges, titleOf, standardOf }: AllGaugesProps) {
  const [params] = useSearchParams()
  const linkTo = (one: Gauge) => {
    const to = new URLSearchParams(params)
    to.set('gauge', gaugeKey(one))
    return `${paths.readings}?${to}`
  }
  const side = (rate: Gauge['low'], limit: string | null) =>
    limit === null ? 'no limit' : `${figure(rate.count)}${rate.few ? '' : ` (${sayRate(rate)})`}`
  return (
    <Table
      caption="All gauges, most outside the band first"
      rows={gauges}
      rowKey={gaugeKey}
      columns={[
        {
          head: 'Gauge',
          cell: (one) => (
            <>
              <Link href={linkTo(one)}>
                <b>{titleOf(one)}</b>
              </Link>{' '}
              <span className="muted">{standardOf(one)}</span>
            </>
          ),
        },
        { head: 'Band', tight: true, cell: sayBand },
        { head: 'Readings', numeric: true, cell: ({ readings }) => figure(readings) },
        { head: 'Low', numeric: true, cell: ({ low, min }) => side(low, min) },
        { head: 'High', numeric: true, cell: ({ high, max }) => side(high, max) },
        {
          head: 'Let stand',
          numeric: true,
          cell: ({ overridden }) => (overridden > 0 ? figure(overridden) : ''),
        },
      ]}
    />
  )
}

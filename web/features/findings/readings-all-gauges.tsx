import { Link, useSearchParams } from 'wouter'
import type { ReadingFindings } from '#contract/findings/readings.ts'
import { formatBand } from '../../domain/standards/format-band.ts'
import { boundedFacts, fact } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { Table } from '../../ui/table.tsx'
import { figure } from '../../words/format-number.ts'
import { formatRate } from './format-failing.ts'
import { gaugeKey } from './gauge-key.ts'

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
    limit === null ? 'no limit' : `${figure(rate.count)}${rate.few ? '' : ` (${formatRate(rate)})`}`
  return (
    <Table<Gauge>
      caption="All gauges, most outside the band first"
      rows={gauges}
      rowKey={gaugeKey}
      columns={[
        {
          head: 'Gauge',
          facts: [fact('Gauge', titleOf), fact('Standard', standardOf)],
          cell: (one) => (
            <>
              <Link href={linkTo(one)}>
                <b>{titleOf(one)}</b>
              </Link>{' '}
              <span className="muted">{standardOf(one)}</span>
            </>
          ),
        },
        {
          head: 'Band',
          facts: [
            fact('Band from', ({ min }) => decimal(min)),
            fact('Band to', ({ max }) => decimal(max)),
            fact('Unit of measure', ({ unit }) => unit),
          ],
          tight: true,
          cell: formatBand,
        },
        { head: 'Readings', numeric: true, cell: ({ readings }) => figure(readings) },
        {
          head: 'Low',
          facts: sideFacts('low', ({ low }) => low),
          numeric: true,
          cell: ({ low, min }) => side(low, min),
        },
        {
          head: 'High',
          facts: sideFacts('high', ({ high }) => high),
          numeric: true,
          cell: ({ high, max }) => side(high, max),
        },
        {
          head: 'Let stand',
          numeric: true,
          cell: ({ overridden }) => (overridden > 0 ? figure(overridden) : ''),
        },
      ]}
    />
  )
}

/** A limit as the number it is; a gauge may have only one. */
const decimal = (limit: string | null): number | null => (limit === null ? null : Number(limit))

const sideFacts = (side: string, of: (one: Gauge) => Gauge['low']) => [
  fact<Gauge>(`Too ${side}`, (one) => of(one).count),
  ...boundedFacts<Gauge>(`Share too ${side}`, (one) => ({ value: of(one).rate, interval: of(one).interval })),
]

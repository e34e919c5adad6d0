import { useQuery } from '@tanstack/react-query'
import { Link, useSearchParams } from 'wouter'
import type { TrendFindings } from '#contract/findings/trend.ts'
import { trendQuery } from '../../api/findings-deep.ts'
import { paths } from '../../app/paths.ts'
import { monthPlot } from '../../charts/plot/month-plot.ts'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { ofAll } from '../../words/of-all.ts'
import { sayMonth } from '../../words/say-month.ts'
import { counted } from '../../words/say-number.ts'
import { sayShare, sayShares } from '../../words/say-share.ts'
import { FindingPage } from './finding-page.tsx'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { RestsOn } from './rests-on.tsx'
import { sayTrend, sayTrendPicture, sayTrendWhy, sayUnusual } from './say-trend.ts'
import { chosenTrend, trendKey } from './trend-key.ts'
import { useFinding } from './use-finding.ts'

type Series = TrendFindings['series'][number]

/** NO-GO month by month, and which month is really unusual. */
export default function TrendPage() {
  const finding = useFinding()
  const [{ chart }, setChart] = useFilters(['chart'])
  const query = useQuery(trendQuery(finding.filters))
  const series = query.data?.series.filter(({ n }) => n > 0)
  const shown = series && chosenTrend(series, chart)
  const nameOf = (one: Series) =>
    one.measure === null ? finding.standardOf(one) : finding.titleOf({ ...one, measure: one.measure })
  const fullName = (one: Series) => (one.measure === null ? nameOf(one) : `${nameOf(one)} (${finding.standardOf(one)})`)

  return (
    <FindingPage
      here={paths.trend}
      title="Month by month"
      finding={finding}
      query={query}
      answer={series && sayTrend(shown, shown ? nameOf(shown) : '')}
      why={series && query.data && sayTrendWhy(series, shown, query.data.judgedMonths)}
      choices={
        <SelectField
          label="Chart"
          value={shown ? trendKey(shown) : ''}
          onChange={(event) => setChart({ chart: event.target.value })}
        >
          {[...new Set(series?.map(({ standard }) => standard))].map((standard) => (
            <optgroup key={standard} label={finding.standardOf({ standard })}>
              {series
                ?.filter((one) => one.standard === standard)
                .map((one) => (
                  <option key={trendKey(one)} value={trendKey(one)}>
                    {one.measure === null ? 'The test as a whole' : nameOf(one)}
                  </option>
                ))}
            </optgroup>
          ))}
        </SelectField>
      }
    >
      {shown && (
        <>
          <Picture
            title={fullName(shown)}
            note={`NO-GO in ${ofAll(shown.count, shown.n)}`}
            plot={monthPlot(shown)}
            says={sayTrendPicture(shown)}
            file="month-by-month"
            figures={{
              head: ['month', 'no_go', 'tested', 'rate', 'limit_low', 'limit_high', 'signals'],
              rows: shown.points.map((point) => [
                point.month,
                point.count,
                point.n,
                point.rate,
                point.low,
                point.high,
                point.signals.join(' '),
              ]),
            }}
          />
          <Section title="Months in figures" note={fullName(shown)}>
            <details className="on-demand">
              <summary>{counted(shown.points.length, 'month')}</summary>
              <Months points={shown.points} />
            </details>
          </Section>
          <Section title="All charts" note="what is unusual first">
            <AllCharts series={series} nameOf={nameOf} standardOf={finding.standardOf} />
          </Section>
        </>
      )}
      {series?.length === 0 && <NoneFound title="Months">No counted test lies within these filters.</NoneFound>}
      {query.data && <RestsOn basis={query.data.basis} />}
    </FindingPage>
  )
}

function Months({ points }: Pick<Series, 'points'>) {
  return (
    <Table
      caption="Months, the newest first"
      rows={[...points].reverse()}
      rowKey={({ month }) => month}
      columns={[
        { head: 'Month', tight: true, cell: ({ month }) => <b>{sayMonth(month)}</b> },
        {
          head: 'NO-GO',
          numeric: true,
          tight: true,
          cell: ({ count, n }) => (n > 0 ? ofAll(count, n) : 'nobody tested'),
        },
        { head: 'Share', numeric: true, tight: true, cell: ({ rate }) => rate !== null && sayShare(rate) },
        {
          head: 'Limits',
          numeric: true,
          tight: true,
          cell: ({ low, high }) => low !== null && high !== null && sayShares({ low, high }),
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

interface AllChartsProps {
  series: readonly Series[]
  nameOf: (one: Series) => string
  standardOf: (one: Series) => string
}

function AllCharts({ series, nameOf, standardOf }: AllChartsProps) {
  const [params] = useSearchParams()
  const linkTo = (one: Series) => {
    const to = new URLSearchParams(params)
    to.set('chart', trendKey(one))
    return `${paths.trend}?${to}`
  }
  const rows = [...series].sort((a, b) => Number(sayUnusual(b) !== '') - Number(sayUnusual(a) !== ''))
  return (
    <Table
      caption="All charts, those with something unusual first"
      rows={rows}
      rowKey={trendKey}
      columns={[
        {
          head: 'Chart',
          cell: (one) => (
            <>
              <Link href={linkTo(one)}>
                <b>{nameOf(one)}</b>
              </Link>{' '}
              {one.measure !== null && <span className="muted">{standardOf(one)}</span>}
            </>
          ),
        },
        { head: 'NO-GO', numeric: true, tight: true, cell: ({ count, n }) => ofAll(count, n) },
        {
          head: 'Unusual',
          bare: true,
          cell: (one) => sayUnusual(one) || <span className="muted">nothing unusual</span>,
        },
      ]}
    />
  )
}

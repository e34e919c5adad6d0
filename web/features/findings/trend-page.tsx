import { useQuery } from '@tanstack/react-query'
import type { TrendFindings } from '#contract/findings/trend.ts'
import { trendQuery } from '../../api/findings/findings-deep.ts'
import { monthPlot } from '../../charts/plot/month-plot.ts'
import { paths } from '../../paths.ts'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import { FindingPage } from './finding-page.tsx'
import { formatTrend, formatTrendPicture, formatTrendWhy } from './format-trend.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { RestsOn } from './rests-on.tsx'
import { AllCharts } from './trend-all-charts.tsx'
import { chosenTrend, trendKey } from './trend-key.ts'
import { Months } from './trend-months.tsx'
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
      answer={series && formatTrend(shown, shown ? nameOf(shown) : '')}
      why={series && query.data && formatTrendWhy(series, shown, query.data.judgedMonths)}
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
            says={formatTrendPicture(shown)}
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

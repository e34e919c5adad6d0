import { useQuery } from '@tanstack/react-query'
import type { ForecastFindings } from '#contract/findings/forecast.ts'
import { forecastFindingsQuery } from '../../api/findings/findings-deep.ts'
import { reliabilityPlot } from '../../charts/plot/reliability-plot.ts'
import { boundedFacts, fact } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { counted, figure } from '../../words/format-number.ts'
import { FindingPage } from './finding-page.tsx'
import { formatCalibration, formatForecasts, formatForecastsWhy } from './format-forecasts.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { useFinding } from './use-finding.ts'

/** How good the forecasts made the day before past tests were, beside two simple ones. */
export default function ForecastsPage() {
  const finding = useFinding()
  const query = useQuery(forecastFindingsQuery(finding.filters))
  const found = query.data
  return (
    <FindingPage
      here={paths.forecasts}
      title="How good the forecasts are"
      finding={finding}
      query={query}
      answer={found && formatForecasts(found)}
      why={found && formatForecastsWhy(found)}
    >
      {found && found.n === 0 && (
        <NoneFound title="Forecasts and what came of them">No past test within these filters has a forecast.</NoneFound>
      )}
      {found && found.n > 0 && (
        <>
          <Reliability found={found} />
          <Scores found={found} />
        </>
      )}
    </FindingPage>
  )
}

function Reliability({ found }: { found: ForecastFindings }) {
  return (
    <Picture
      title="Forecasts and what came of them"
      note={`${counted(found.n, 'past test')}, in groups of a like forecast`}
      plot={reliabilityPlot(found.bins)}
      says={formatCalibration(found)}
      file="forecasts"
      figures={{
        head: ['from', 'to', 'tests', 'mean_forecast', 'share_passed', 'low', 'high'],
        rows: found.bins.map((bin) => [bin.from, bin.to, bin.n, bin.forecast, bin.passed, bin.low, bin.high]),
      }}
    />
  )
}

interface Score {
  name: string
  brier: number | null
  logScore: number | null
  gain: { value: number | null; interval: { low: number | null; high: number | null } } | null
}

const BASELINES = {
  kind: 'The unit’s pass rate for that kind of attempt',
  last: 'The share of measures GO at the last test',
} as const

function Scores({ found }: { found: ForecastFindings }) {
  const rows: Score[] = [
    { name: 'The forecast', brier: found.brier, logScore: found.logScore, gain: null },
    ...found.baselines.map(({ baseline, brier, logScore, gain, gainInterval }) => ({
      name: BASELINES[baseline],
      brier,
      logScore,
      gain: { value: gain, interval: gainInterval },
    })),
  ]
  return (
    <Section title="Beside simpler forecasts" note="the less, the better">
      <Table<Score>
        caption="Scores of the forecasts"
        rows={rows}
        rowKey={({ name }) => name}
        columns={[
          { head: 'Forecast by', cell: ({ name }) => name },
          {
            head: 'Brier score',
            facts: [fact('Brier score', ({ brier }) => brier)],
            numeric: true,
            cell: ({ brier }) => three(brier),
          },
          {
            head: 'Log score',
            facts: [fact('Log score', ({ logScore }) => logScore)],
            numeric: true,
            cell: ({ logScore }) => three(logScore),
          },
          {
            head: 'The forecast is better by',
            facts: boundedFacts('The forecast is better by', ({ gain }) => gain),
            cell: ({ gain }) => formatGain(gain),
          },
        ]}
      />
      <p className="rests-on">
        Brier score: mean squared difference of forecast and outcome; always saying half scores 0.25. Log score: mean of
        minus the logarithm of the chance given to what came. Rests on {figure(found.n)} tests that count.
      </p>
    </Section>
  )
}

const three = (value: number | null): string => (value === null ? '–' : value.toFixed(3).replace('-', '−'))

const formatGain = (gain: Score['gain']): string => {
  if (gain === null) return ''
  const { low, high } = gain.interval
  return low === null || high === null ? three(gain.value) : `${three(gain.value)} (${three(low)} to ${three(high)})`
}

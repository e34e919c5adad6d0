import { Link } from 'wouter'
import type { Forecast } from '#contract/ability/forecasts.ts'
import { formatBasis, formatForecast, formatWhatItTakes } from '../../domain/ability/format-forecast.ts'
import { paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'

interface ForecastSectionProps {
  forecast: Forecast
  measureTitle: (measure: string) => string
  /** Whether the reader can open the findings. */
  mayCheck: boolean
  today: string
}

/** The chance to pass the next test, what it rests on and what would raise it. */
export function ForecastSection({ forecast, measureTitle, mayCheck, today }: ForecastSectionProps) {
  const takes = formatWhatItTakes(forecast, measureTitle)
  return (
    <Section title="Chance to pass next time" note="a forecast, not a finding about anybody">
      <p>
        <b>{formatForecast(forecast)}</b>
      </p>
      {takes !== '' && <p>{takes}</p>}
      <p className="muted small">
        {formatBasis(forecast, today)}
        {mayCheck && (
          <>
            {' '}
            <Link className="no-print" href={paths.forecasts}>
              How good such forecasts have been
            </Link>
          </>
        )}
      </p>
    </Section>
  )
}

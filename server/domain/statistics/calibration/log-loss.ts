import { type Forecast, requireForecasts } from './forecast.ts'

export type LogLoss = { kind: 'no-data' } | { kind: 'loss'; value: number } | { kind: 'unbounded'; forecasts: number }

/**
 * The mean surprise of forecasts: −Σ ln(the probability given to what happened)/n, in natural units. 0 is perfect, ln 2
 * is what saying ½ always gives.
 *
 * Source: I. J. Good (1952), *J. R. Stat. Soc. B* 14:107–114. Out: "unbounded" with their number where something was
 * called certain and did not happen: no clipping, which would hide it behind an arbitrary figure.
 * Example: 0.9, 0.9, 0.8, 0.65 given to what happened: 0.2162.
 */
export function logLoss(forecasts: readonly Forecast[]): LogLoss {
  requireForecasts(forecasts)
  if (forecasts.length === 0) return { kind: 'no-data' }
  const surprises = forecasts.map(
    ({ probability, happened }) => -(happened ? Math.log(probability) : Math.log1p(-probability)),
  )
  const impossible = surprises.filter((surprise) => surprise === Infinity).length
  if (impossible > 0) return { kind: 'unbounded', forecasts: impossible }
  return { kind: 'loss', value: surprises.reduce((sum, surprise) => sum + surprise, 0) / forecasts.length }
}

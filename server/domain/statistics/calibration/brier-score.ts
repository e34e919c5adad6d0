import { type Forecast, requireForecasts } from './forecast.ts'

/**
 * The mean squared distance of forecasts from what happened: Σ (p − o)²/n, o being 1 or 0. 0 is perfect, 0.25 is what
 * saying ½ always gives.
 *
 * Source: G. W. Brier (1950), *Monthly Weather Review* 78:1–3, in the one-class form now usual (half of Brier's own
 * sum over both classes). Out: null without forecasts.
 * Example: 0.1, 0.9, 0.8, 0.3 for 0, 1, 1, 0 gives 0.0375.
 */
export function brierScore(forecasts: readonly Forecast[]): number | null {
  requireForecasts(forecasts)
  if (forecasts.length === 0) return null
  const sum = forecasts.reduce((total, { probability, happened }) => total + (probability - Number(happened)) ** 2, 0)
  return sum / forecasts.length
}

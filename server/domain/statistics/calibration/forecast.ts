import { requireProbability } from '../numeric/require-probability.ts'

/** A probability that was forecast, and whether the event (a GO, say) came about. */
export type Forecast = { probability: number; happened: boolean }

/** Stops forecasts that are no probabilities. */
export function requireForecasts(forecasts: readonly Forecast[]): void {
  for (const { probability } of forecasts) requireProbability(probability, 'A forecast')
}

import { createHash } from 'node:crypto'
import { setImmediate } from 'node:timers/promises'
import type { Forecast } from '../../contract/ability/forecasts.ts'
import type { CandidateHistory } from '../../domain/ability/candidate-history.ts'
import type { ForecastGround } from './forecast-ground.ts'
import { forecastOf } from './forecast-of.ts'

const MOST_KEPT = 2_000
/** By a hash of all that it was made of, so nobody's record is in it; those asked for last are last. */
const kept = new Map<string, Forecast>()

/**
 * The forecast of a candidate, kept in memory as long as nothing it rests on has changed: lists ask for many, and each takes
 * some hundredths of a second. Other requests get their turn in between.
 */
export async function keptForecast(ground: ForecastGround, history: CandidateHistory, asOf: string): Promise<Forecast> {
  const tests = history.tests.map(({ id: _, ...test }) => test)
  const made = JSON.stringify([ground.print, tests, history.others, asOf])
  const key = createHash('sha256').update(made).digest('base64')
  const found = kept.get(key)
  kept.delete(key)
  const forecast = found ?? { ...forecastOf(ground, history, asOf), sheetIds: [] }
  kept.set(key, forecast)
  if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!)
  if (!found) await setImmediate()
  return forecast
}

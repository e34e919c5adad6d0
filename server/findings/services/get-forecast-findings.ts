import type { Context } from '../../context/context.ts'
import type { ForecastFindings } from '../../contract/findings/forecast.ts'
import type { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import { checkForecasts } from '../../domain/ability/check-forecasts.ts'
import type { Estimate } from '../../domain/ability/clustered-mean.ts'
import { modelOrBaseline } from '../../domain/ability/model-or-baseline.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type CheckedTest, listCheckedTests } from '../db/findings-forecast.db.ts'
import { findingsQuery } from './findings-query.ts'

/** How the forecasts that would have been made the day before past tests came out, beside two baselines. */
export async function getForecastFindings(
  context: Context,
  actor: Actor,
  query: UnpagedFindingsQuery,
): Promise<ForecastFindings> {
  const { filter } = await findingsQuery(context, actor, query)
  const tests = await listCheckedTests(context.db, filter)
  const check = checkForecasts(tests)
  if (check === null) return NOTHING
  const { n, score, byKind, byLast, gainOverKind, gainOverLast, calibration, bins } = check
  return {
    n,
    brier: score.brier,
    brierInterval: limits(score.brierInterval),
    logScore: score.logScore,
    baselines: [
      { baseline: 'kind', ...byKind, gain: gainOverKind.value, gainInterval: limits(gainOverKind) },
      { baseline: 'last', ...byLast, gain: gainOverLast.value, gainInterval: limits(gainOverLast) },
    ],
    slope: calibration.slope?.value ?? null,
    slopeInterval: calibration.slope && limits(calibration.slope),
    intercept: calibration.intercept?.value ?? null,
    interceptInterval: calibration.intercept && limits(calibration.intercept),
    bins: [...bins],
    kinds: (['first', 'retest', 'renewal'] as const).flatMap((kind) => ofKind(kind, tests)),
  }
}

const NOTHING: ForecastFindings = {
  n: 0,
  brier: null,
  brierInterval: null,
  logScore: null,
  baselines: [],
  slope: null,
  slopeInterval: null,
  intercept: null,
  interceptInterval: null,
  bins: [],
  kinds: [],
}

const limits = ({ low, high }: Estimate) => ({ low, high })

function ofKind(kind: CheckedTest['kind'], tests: readonly CheckedTest[]): ForecastFindings['kinds'] {
  const check = checkForecasts(tests.filter((test) => test.kind === kind))
  if (check === null) return []
  const record = { n: check.n, brier: check.score.brier, byKind: check.byKind.brier }
  return [{ kind, n: check.n, brier: record.brier, baselineBrier: record.byKind, shown: modelOrBaseline(record) }]
}

import type { Forecast } from '../../contract/ability/forecasts.ts'
import type { CandidateHistory } from '../../domain/ability/candidate-history.ts'
import { goByTrial } from '../../domain/ability/count-of-go.ts'
import type { MeasureLayout } from '../../domain/ability/measure-layout.ts'
import { modelOrBaseline, movedLimits } from '../../domain/ability/model-or-baseline.ts'
import { type NextForecast, nextForecast } from '../../domain/ability/next-forecast.ts'
import { passChance, passForecast } from '../../domain/ability/pass-forecast.ts'
import { unitRate } from '../../domain/ability/unit-rate.ts'
import type { ForecastGround } from './forecast-ground.ts'

/** The forecast of the next test that a candidate with this past takes, from what was there up to a day. */
export function forecastOf(ground: ForecastGround, history: CandidateHistory, asOf: string): Forecast {
  const { layout, known, version, scores } = ground
  const next = nextForecast(layout, known.fit, history, asOf, version)
  const model = passForecast(next.posterior, next.test)
  const { kind } = next.attempt
  const score = scores.find((one) => one.kind === kind)
  const { tests, rate } = unitRate(known.fit, kind)
  const basis = modelOrBaseline(score)
  const { pass, low, high } = basis === 'model' ? model : { pass: rate, ...movedLimits(model, rate) }
  const byGain = next.codes.map((measure, place) => ({ measure, gain: tidy(model.gains[place]!) }))
  return {
    standard: ground.standard,
    kind,
    pass: held(pass),
    low: held(low),
    high: held(high),
    basis,
    sheets: next.sheets.length,
    sheetIds: [...next.sheets],
    measures: next.codes.map((measure, place) => ({ measure, go: held(model.measures[place]!) })),
    drill: byGain.sort((a, b) => b.gain - a.gain),
    ...marksSoFar(layout, history, asOf, next.codes),
    whatItTakes: whatItTakes(next, model.gains, model.pass),
    baseline: {
      rate,
      tests,
      checked: score?.n ?? 0,
      modelBrier: score?.brier ?? null,
      baselineBrier: score?.byKind ?? null,
    },
    fit: {
      sheets: known.fit.sheets,
      through: known.through,
      fittedAt: known.fittedAt.toISOString(),
      byPriors: known.fit.byPriors,
    },
  }
}

/** Without the dust of arithmetic, so that measures that gain the same keep the order of the standard. */
const tidy = (gain: number): number => Math.round(gain * 1e9) / 1e9

const held = (p: number): number => Math.min(1, Math.max(0, p))

/** Measures that were NO-GO once and GO when last tested, and those that no test has reached. */
function marksSoFar(layout: MeasureLayout, { tests }: CandidateHistory, asOf: string, codes: readonly string[]) {
  const marksOf = (code: string) =>
    tests
      .filter(({ day, marks }) => day <= asOf && marks !== '')
      .flatMap(({ version, marks }) => {
        const places = layout.ofVersion.get(version)
        const place = places?.codes.indexOf(code) ?? -1
        const mark = place < 0 ? undefined : marks[places!.majors.length + place]
        return mark === 'G' || mark === 'N' ? [mark] : []
      })
  return {
    goSince: codes.filter((code) => marksOf(code).includes('N') && marksOf(code).at(-1) === 'G'),
    notReached: codes.filter((code) => marksOf(code).length === 0),
  }
}

const MOST_LIFTED = 3

/** The chance if the measures that would gain most, and are below it, were done right in as many trials as are needed. */
function whatItTakes({ test, posterior, codes }: NextForecast, gains: readonly number[], from: number) {
  const { trials, needed } = test
  const chance = goByTrial(trials, needed)(needed / trials)
  const below = test.measures
    .map(({ logit, strength }, place) => ({ place, rate: rateOf(posterior, logit, strength) }))
    .filter(({ rate }) => rate < needed / trials)
  const places = below
    .map(({ place }) => place)
    .sort((a, b) => gains[b]! - gains[a]!)
    .slice(0, MOST_LIFTED)
  if (places.length === 0) return null
  const to = held(passChance(posterior, test, { places, chance }))
  return { measures: places.map((place) => codes[place]!), correct: needed, of: trials, from: held(from), to }
}

/** The chance of a correct trial of one measure. */
function rateOf(
  { ability, weights, strengths, strengthWeights, strengthCount }: NextForecast['posterior'],
  logit: number,
  strength: number,
) {
  let sum = 0
  for (let i = 0; i < weights.length; i++) {
    for (let k = 0; k < strengths.length; k++) {
      const weight = strengthWeights[(i * strengthCount + strength) * strengths.length + k]!
      sum += (weights[i]! * weight) / (1 + Math.exp(-logit - ability[i]! - strengths[k]!))
    }
  }
  return sum
}

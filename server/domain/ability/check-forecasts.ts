import { brierScore } from '../statistics/calibration/brier-score.ts'
import { logLoss } from '../statistics/calibration/log-loss.ts'
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts'
import { type Calibration, calibration } from './calibration.ts'
import { clusteredMean, type Estimate } from './clustered-mean.ts'

/** A test that was forecast before it was taken. */
export interface ForecastTest {
  readonly candidate: string
  readonly forecast: number
  readonly passed: boolean
  /** What would have been said without a model: the unit's pass rate for that kind; share of GO measures last time. */
  readonly byKind: number
  readonly byLast: number
}

export interface Score {
  readonly brier: number
  readonly logScore: number
}

export interface ForecastCheck {
  readonly n: number
  readonly score: Score & { readonly brierInterval: Estimate }
  readonly byKind: Score
  readonly byLast: Score
  /** By how much the model's squared error is less than each baseline's. */
  readonly gainOverKind: Estimate
  readonly gainOverLast: Estimate
  readonly calibration: Calibration
  readonly bins: readonly ReliabilityBin[]
}

export interface ReliabilityBin {
  readonly from: number
  readonly to: number
  readonly n: number
  /** Mean forecast, and share that passed with its 95 % interval (Wilson). */
  readonly forecast: number
  readonly passed: number
  readonly low: number
  readonly high: number
}

const BINS = 10
/** A baseline may say 0 or 1, whose log score is infinite when wrong; forecasts are held this far from both. */
const CERTAIN = 0.001

/**
 * How good forecasts were: Brier score and log score beside two baselines, calibration, and the reliability picture in tenths.
 * Intervals take the tests of one candidate as one cluster. Null without tests.
 * Source: see `brierScore`, `logLoss`, `calibration`, `clusteredMean`.
 */
export function checkForecasts(tests: readonly ForecastTest[]): ForecastCheck | null {
  if (tests.length === 0) return null
  const squared = (said: (test: ForecastTest) => number) => (test: ForecastTest) =>
    (said(test) - Number(test.passed)) ** 2
  const [model, kind, last] = [
    squared(({ forecast }) => forecast),
    squared(({ byKind }) => byKind),
    squared(({ byLast }) => byLast),
  ]
  const mean = (value: (test: ForecastTest) => number) =>
    clusteredMean(tests.map((test) => ({ cluster: test.candidate, value: value(test) })))
  return {
    n: tests.length,
    score: { ...scoreOf(tests, ({ forecast }) => forecast), brierInterval: mean(model) },
    byKind: scoreOf(tests, ({ byKind }) => byKind),
    byLast: scoreOf(tests, ({ byLast }) => byLast),
    gainOverKind: mean((test) => kind(test) - model(test)),
    gainOverLast: mean((test) => last(test) - model(test)),
    calibration: calibration(
      tests.map(({ candidate, forecast, passed }) => ({ cluster: candidate, forecast: within(forecast), passed })),
    ),
    bins: reliabilityBins(tests),
  }
}

const within = (p: number) => Math.min(1 - CERTAIN, Math.max(CERTAIN, p))

function scoreOf(tests: readonly ForecastTest[], said: (test: ForecastTest) => number): Score {
  const forecasts = tests.map((test) => ({ probability: said(test), happened: test.passed }))
  const loss = logLoss(forecasts.map(({ probability, happened }) => ({ probability: within(probability), happened })))
  return { brier: brierScore(forecasts)!, logScore: loss.kind === 'loss' ? loss.value : 0 }
}

function reliabilityBins(tests: readonly ForecastTest[]): ReliabilityBin[] {
  return Array.from({ length: BINS }, (_, place) => {
    const inside = tests.filter(({ forecast }) => Math.min(BINS - 1, Math.floor(forecast * BINS)) === place)
    const count = inside.filter(({ passed }) => passed).length
    const interval = wilsonInterval({ count, n: inside.length })
    const { low, high } = interval.kind === 'interval' ? interval : { low: 0, high: 1 }
    return {
      from: place / BINS,
      to: (place + 1) / BINS,
      n: inside.length,
      forecast: inside.reduce((sum, { forecast }) => sum + forecast, 0) / inside.length,
      passed: count / inside.length,
      low,
      high,
    }
  }).filter(({ n }) => n > 0)
}

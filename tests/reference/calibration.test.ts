import { describe, expect, test } from 'vitest'
import { brierScore } from '../../server/domain/statistics/calibration/brier-score.ts'
import type { Forecast } from '../../server/domain/statistics/calibration/forecast.ts'
import { logLoss } from '../../server/domain/statistics/calibration/log-loss.ts'

function forecasts(probabilities: number[], outcomes: number[]): Forecast[] {
  return probabilities.map((probability, i) => ({ probability, happened: outcomes[i] === 1 }))
}

// G. W. Brier (1950), Monthly Weather Review 78:1–3, ten forecasts of rain: .19 in his form over both classes, so
// .095 in the one-class form (from memory).
test('Brier 1950', () => {
  const rain = forecasts([0.7, 0.9, 0.8, 0.4, 0.2, 0, 0, 0, 0, 0.1], [0, 1, 1, 1, 0, 0, 0, 0, 0, 0])
  expect(2 * brierScore(rain)!).toBeCloseTo(0.19, 12)
})

// Documentation of scikit-learn: brier_score_loss and log_loss (the binary log loss recomputed).
describe('scikit-learn', () => {
  const list = forecasts([0.1, 0.9, 0.8, 0.3], [0, 1, 1, 0])

  test('Brier score', () => expect(brierScore(list)).toBeCloseTo(0.0375, 14))

  test('log loss', () => {
    const binary = logLoss(list)
    expect(binary.kind === 'loss' && binary.value).toBeCloseTo(0.1976348816, 10)
    const spam = logLoss(forecasts([0.9, 0.1, 0.2, 0.65], [1, 0, 0, 1]))
    expect(spam.kind === 'loss' && spam.value).toBeCloseTo(0.21616187468057912, 14)
  })
})

test('nothing to score, and certainty that was wrong', () => {
  expect(brierScore([])).toBeNull()
  expect(logLoss([])).toEqual({ kind: 'no-data' })
  expect(logLoss(forecasts([1, 0, 0.5], [0, 0, 1]))).toEqual({ kind: 'unbounded', forecasts: 1 })
  expect(() => brierScore([{ probability: 1.2, happened: true }])).toThrow(RangeError)
})

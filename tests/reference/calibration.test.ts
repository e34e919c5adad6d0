import { describe, expect, test } from 'vitest'
import { brierScore } from '../../server/domain/statistics/calibration/brier-score.ts'
import type { Forecast } from '../../server/domain/statistics/calibration/forecast.ts'
import { logLoss } from '../../server/domain/statistics/calibration/log-loss.ts'
import { murphyDecomposition } from '../../server/domain/statistics/calibration/murphy-decomposition.ts'

function forecasts(probabilities: number[], outcomes: number[]): Forecast[] {
  return probabilities.map((probability, i) => ({ probability, happened: outcomes[i] === 1 }))
}
function parts(list: Forecast[]) {
  const result = murphyDecomposition(list)
  if (result.kind !== 'parts') throw new Error(result.kind)
  return result
}

// G. W. Brier (1950), Monthly Weather Review 78:1–3, ten forecasts of rain: .19 in his form over both classes, so
// .095 in the one-class form; parts after A. H. Murphy (1973), recomputed (from memory).
test('Brier 1950', () => {
  const rain = forecasts([0.7, 0.9, 0.8, 0.4, 0.2, 0, 0, 0, 0, 0.1], [0, 1, 1, 1, 0, 0, 0, 0, 0, 0])
  expect(2 * brierScore(rain)!).toBeCloseTo(0.19, 12)
  const { reliability, resolution, uncertainty, skill } = parts(rain)
  expect(reliability).toBeCloseTo(0.095, 12)
  expect(resolution).toBeCloseTo(0.21, 12)
  expect(uncertainty).toBeCloseTo(0.21, 12)
  expect(skill).toBeCloseTo(0.5476190476, 10)
})

// Exact fractions, recomputed.
test('Murphy decomposition in groups', () => {
  const bins = [
    [0.1, 10, 2],
    [0.3, 6, 1],
    [0.7, 8, 6],
    [0.9, 6, 6],
  ] as const
  const list = bins.flatMap(([probability, n, events]) =>
    Array.from({ length: n }, (_, i) => ({ probability, happened: i < events })),
  )
  const { reliability, resolution, uncertainty, groups } = parts(list)
  expect(brierScore(list)).toBeCloseTo(211 / 1500, 14)
  expect(reliability).toBeCloseTo(43 / 4500, 14)
  expect(resolution).toBeCloseTo(107 / 900, 14)
  expect(uncertainty).toBeCloseTo(1 / 4, 14)
  expect(groups.map(({ probability, n, happened }) => [probability, n, happened])).toEqual(bins)
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
  expect(murphyDecomposition([])).toEqual({ kind: 'no-data' })
  expect(logLoss(forecasts([1, 0, 0.5], [0, 0, 1]))).toEqual({ kind: 'unbounded', forecasts: 1 })
  expect(parts(forecasts([0.5, 0.5], [1, 1])).skill).toBeNull()
  expect(() => brierScore([{ probability: 1.2, happened: true }])).toThrow(RangeError)
})

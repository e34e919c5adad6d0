import { describe, expect, test } from 'vitest'
import { chanceAtLeast, goByTrial } from '../../server/domain/ability/count-of-go.ts'
import { poissonBinomial } from '../../server/domain/statistics/expectation/poisson-binomial.ts'

function expectAll(actual: readonly number[], expected: readonly number[]): void {
  expect(actual).toHaveLength(expected.length)
  expected.forEach((value, i) => {
    expect(actual[i]).toBeCloseTo(value, 14)
  })
}

describe('distribution', () => {
  // README of fast-poibin.
  test('three trials', () => expectAll(poissonBinomial([0.1, 0.2, 0.2]), [0.576, 0.352, 0.068, 0.004]))

  // Vignette "intro" of R PoissonBinomial: certain and impossible trials among the others.
  test('certain and impossible trials', () => {
    expectAll(poissonBinomial([0, 0, 0.1, 0.2, 0.4, 0.8, 1]), [0, 0.0864, 0.4344, 0.3784, 0.0944, 0.0064, 0, 0])
    expectAll(poissonBinomial([0, 0, 0.4, 1]), [0, 0.6, 0.4, 0, 0])
  })

  // Exact fractions.
  test('four trials', () =>
    expectAll(poissonBinomial([0.1, 0.67, 0.85, 0.7]), [0.013365, 0.13554, 0.40869, 0.40254, 0.039865]))

  test('no trial', () => expect(poissonBinomial([])).toEqual([1]))
})

// Exact fractions, recomputed: g(p) = p²(3 − 2p), then at least 11 of 13 measures of equal g.
test.each([
  [0.5, 0.5, 23 / 2048],
  [0.6, 0.648, 0.1103886429],
  [0.7, 0.784, 0.4440101015],
  [0.75, 0.84375, 0.6681090835],
  [0.8, 0.896, 0.8539421456],
  [0.9, 0.972, 0.9949151986],
  [0.95, 0.99275, 0.9998967857],
])('2 of 3 at p = %d', (p, g, atLeast11) => {
  expect(goByTrial(3, 2)(p)).toBeCloseTo(g, 13)
  expect(probabilityAtLeast(new Array(13).fill(goByTrial(3, 2)(p)), 11)).toBeCloseTo(atLeast11, 9)
})

// Recomputed with exact fractions.
test('13 measures of unequal skill, one try each and 2 of 3', () => {
  const skills = [0.95, 0.95, 0.9, 0.9, 0.9, 0.85, 0.85, 0.8, 0.8, 0.75, 0.7, 0.65, 0.6]
  expect(probabilityAtLeast(skills, 11)).toBeCloseTo(0.5567578822366875, 13)
  const each = skills.map((p) => goByTrial(3, 2)(p))
  expect(probabilityAtLeast(each, 11)).toBeCloseTo(0.8461519556473902, 13)
})

function probabilityAtLeast(list: readonly number[], k: number): number {
  return chanceAtLeast(Float64Array.from(list), k, new Float64Array(list.length + 1))
}

import betaQuantileReference from '@stdlib/stats-base-dists-beta-quantile'
import binomialCumulativeReference from '@stdlib/stats-base-dists-binomial-cdf'
import normalQuantileReference from '@stdlib/stats-base-dists-normal-quantile'
import { describe, expect, test } from 'vitest'
import { betaQuantile } from '../../server/domain/statistics/numeric/beta-quantile.ts'
import { binomialCumulative } from '../../server/domain/statistics/numeric/binomial-cumulative.ts'
import { binomialDensity } from '../../server/domain/statistics/numeric/binomial-density.ts'
import { chiSquareUpperTail } from '../../server/domain/statistics/numeric/chi-square-upper-tail.ts'
import { fQuantile } from '../../server/domain/statistics/numeric/f-quantile.ts'
import { incompleteBeta } from '../../server/domain/statistics/numeric/incomplete-beta.ts'
import { incompleteGamma } from '../../server/domain/statistics/numeric/incomplete-gamma.ts'
import { normalCumulative } from '../../server/domain/statistics/numeric/normal-cumulative.ts'
import { normalQuantile } from '../../server/domain/statistics/numeric/normal-quantile.ts'
import { solveSymmetric } from '../../server/domain/statistics/numeric/solve-symmetric.ts'
import { studentQuantile } from '../../server/domain/statistics/numeric/student-quantile.ts'
import { twoSidedQuantile } from '../../server/domain/statistics/numeric/two-sided-quantile.ts'

function expectRelative(actual: number, expected: number, tolerance: number, what: string): void {
  const miss = Math.abs(actual - expected) / Math.max(Math.abs(expected), Number.MIN_VALUE)
  expect(miss <= tolerance, `${what}: ${actual} against ${expected}`).toBe(true)
}

describe('against @stdlib', () => {
  test('beta quantile', () => {
    for (const a of [0.5, 1, 2.5, 10, 82, 400])
      for (const b of [0.5, 1, 3, 50, 183])
        for (const p of [0.001, 0.025, 0.5, 0.975, 0.999])
          expectRelative(betaQuantile(p, a, b), betaQuantileReference(p, a, b), 1e-9, `beta ${p}, ${a}, ${b}`)
  })

  test('binomial distribution', () => {
    for (const n of [1, 5, 13, 100, 1000])
      for (const p of [0.01, 0.3, 0.5, 0.77, 0.99])
        for (const share of [0, 0.1, 0.5, 0.77, 0.99]) {
          const k = Math.floor(n * share)
          const expected = binomialCumulativeReference(k, n, p)
          if (expected > 1e-290)
            expectRelative(binomialCumulative(k, n, p), expected, 1e-9, `binomial ${k}, ${n}, ${p}`)
        }
  })

  test('normal quantile', () => {
    for (const p of [1e-8, 0.001, 0.025, 0.07, 0.0749, 0.2, 0.6, 0.975, 0.999, 1 - 1e-12])
      expectRelative(normalQuantile(p), normalQuantileReference(p, 0, 1), 1e-10, `normal ${p}`)
  })
})

// Recomputed with mpmath 1.3 at 50 digits (gamma, beta and normal functions) and scipy 1.17 (t, F, chi-square
// quantiles).
describe('against digits recomputed at high precision', () => {
  test('incomplete beta and gamma functions in body and tails', () => {
    expectRelative(incompleteBeta(0.01, 100, 3), 5.04950500000001e-197, 1e-12, 'far tail')
    expectRelative(incompleteBeta(0.99, 1e5, 1000), 0.3717821455135547, 1e-12, 'large parameters')
    expectRelative(incompleteGamma(0.5, 250).upper, 9.505397766554091e-111, 1e-12, 'far upper tail')
    expectRelative(incompleteGamma(200, 5).lower, 5.452283195135344e-238, 1e-12, 'far lower tail')
    expect(incompleteGamma(3, 0)).toEqual({ lower: 0, upper: 1 })
  })

  test('normal distribution', () => {
    expectRelative(normalCumulative(-30), 4.906713927148187e-198, 1e-12, '-30')
    expectRelative(normalCumulative(-3), 0.0013498980316300946, 1e-13, '-3')
    expect(normalCumulative(0)).toBeCloseTo(0.5, 15)
    expectRelative(normalQuantile(1e-8), -5.612001244174789, 1e-14, '1e-8')
    expectRelative(normalQuantile(0.001), -3.090232306167813, 1e-14, '0.001')
    expectRelative(normalQuantile(1e-20), -9.262340089798409, 1e-14, '1e-20 (the package above gives −∞ here)')
    expectRelative(normalQuantile(1e-300), -37.0470962993612, 1e-14, '1e-300')
    expectRelative(twoSidedQuantile(0.95), 1.959963984540054, 1e-14, '95 %')
    expectRelative(twoSidedQuantile(0.9), 1.6448536269514722, 1e-14, '90 %')
    expectRelative(twoSidedQuantile(0.99), 2.5758293035489004, 1e-14, '99 %')
  })

  test('t, F and chi-square', () => {
    expectRelative(studentQuantile(0.95, 1), 12.706204736174694, 1e-12, 't 1')
    expectRelative(studentQuantile(0.95, 11), 2.200985160091639, 1e-12, 't 11')
    expectRelative(fQuantile(0.975, 1, 1), 647.7890114778442, 1e-11, 'F 1, 1')
    expectRelative(fQuantile(0.025, 1, 1), 0.001543712508674131, 1e-12, 'F 1, 1 lower')
    expectRelative(chiSquareUpperTail(3.841458820694124, 1), 0.05, 1e-13, 'chi-square 1')
    expectRelative(chiSquareUpperTail(9.487729036781154, 4), 0.05, 1e-13, 'chi-square 4')
  })

  test('binomial density far from and at its mode', () => {
    expectRelative(binomialDensity(100, 1000, 0.5), 5.958935980362645e-162, 1e-12, 'far')
    expectRelative(binomialDensity(2, 3, 0.5), 0.375, 1e-14, 'near')
    expect(binomialDensity(0, 5, 0)).toBe(1)
    expect(binomialDensity(4, 5, 1)).toBe(0)
  })
})

test('a symmetric system by hand: [[4, 2], [2, 3]] x = [2, 3] has x = [0, 1]; a singular one has none', () => {
  const x = solveSymmetric(
    [
      [4, 2],
      [2, 3],
    ],
    [2, 3],
  )!
  expect(x[0]).toBeCloseTo(0, 14)
  expect(x[1]).toBeCloseTo(1, 14)
  expect(
    solveSymmetric(
      [
        [1, 1],
        [1, 1],
      ],
      [1, 1],
    ),
  ).toBeNull()
})

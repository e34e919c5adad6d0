import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile'
import { logGamma } from '../../../../server/domain/statistics/numeric/log-gamma.ts'
import type { Share } from '../../../../server/domain/statistics/proportions/share.ts'
import { betaBinomialLikelihood } from '../../../../server/domain/statistics/shrinkage/beta-binomial-likelihood.ts'
import { fitBetaBinomial } from '../../../../server/domain/statistics/shrinkage/fit-beta-binomial.ts'
import { shrunkRate } from '../../../../server/domain/statistics/shrinkage/shrunk-rate.ts'

const of = (...pairs: [number, number][]): Share[] => pairs.map(([count, n]) => ({ count, n }))
const share = fc
  .integer({ min: 1, max: 40 })
  .chain((n) => fc.integer({ min: 0, max: n }).map((count) => ({ count, n })))
const groups = fc.array(share, { minLength: 2, maxLength: 15 })

/** The likelihood in gamma functions, written independently of the one under test. */
function logLikelihood(shares: Share[], alpha: number, beta: number): number {
  const logBeta = (a: number, b: number) => logGamma(a) + logGamma(b) - logGamma(a + b)
  return shares.reduce((sum, { count, n }) => {
    const ways = logGamma(n + 1) - logGamma(count + 1) - logGamma(n - count + 1)
    return sum + ways + logBeta(alpha + count, beta + n - count) - logBeta(alpha, beta)
  }, 0)
}

describe('beta-binomial fit', () => {
  test('no point of a wide grid is likelier', () => {
    fc.assert(
      fc.property(groups, (shares) => {
        const fit = fitBetaBinomial(shares)
        if (fit.kind !== 'fitted' && fit.kind !== 'no-over-dispersion') return
        if (fit.kind === 'fitted') expect(logLikelihood(shares, fit.alpha, fit.beta)).toBeCloseTo(fit.logLikelihood, 6)
        for (const mean of [0.05, 0.2, 0.4, fit.rate, 0.6, 0.8, 0.95])
          for (const size of [0.01, 0.1, 0.5, 1, 2, 5, 10, 30, 100, 1000])
            expect(logLikelihood(shares, mean * size, (1 - mean) * size)).toBeLessThanOrEqual(fit.logLikelihood + 1e-7)
      }),
      { numRuns: 40 },
    )
  })

  test('is the same in any order and with groups that have no attempts, and turns with passes and failures', () => {
    fc.assert(
      fc.property(groups, (shares) => {
        const fit = fitBetaBinomial(shares)
        expect(fitBetaBinomial([{ count: 0, n: 0 }, ...[...shares].reverse()]).kind).toBe(fit.kind)
        const turned = fitBetaBinomial(shares.map(({ count, n }) => ({ count: n - count, n })))
        if (fit.kind === 'fitted') {
          if (turned.kind !== 'fitted') throw new Error(turned.kind)
          expect(turned.alpha / fit.beta).toBeCloseTo(1, 5)
          expect(turned.beta / fit.alpha).toBeCloseTo(1, 5)
        }
      }),
      { numRuns: 40 },
    )
  })

  test.each([
    ['no-data', of([0, 0])],
    ['no-data', []],
    ['one-group', of([3, 9], [0, 0])],
    ['all-passed', of([3, 3], [5, 5])],
    ['none-passed', of([0, 3], [0, 5])],
    ['single-attempts', of([1, 1], [0, 1], [1, 1])],
    ['all-or-nothing', of([4, 4], [0, 3], [1, 1])],
    ['no-over-dispersion', of([5, 10], [5, 10], [5, 10])],
    ['fitted', of([1, 10], [9, 10], [5, 10])],
  ] as const)('%s', (kind, shares) => {
    expect(fitBetaBinomial(shares).kind).toBe(kind)
  })

  test('pools where groups differ no more than chance', () => {
    expect(fitBetaBinomial(of([7, 10], [13, 20], [20, 30]))).toMatchObject({
      kind: 'no-over-dispersion',
      rate: 40 / 60,
    })
  })

  test('all or nothing but for one group in many still has an end', () => {
    const pure = Array.from({ length: 60_000 }, (_, i) => ({ count: i % 2 === 0 ? 20 : 0, n: 20 }))
    const fit = fitBetaBinomial([...pure, { count: 10, n: 20 }])
    if (fit.kind !== 'fitted') throw new Error(fit.kind)
    expect(fit.alpha + fit.beta).toBeLessThan(1e-4)
    expect(fit.rate).toBeCloseTo(0.5, 4)
  })

  test('one large group among many small ones', () => {
    const small = Array.from({ length: 300 }, (_, i) => ({ count: i % 4, n: 3 }))
    const fit = fitBetaBinomial([{ count: 3500, n: 5000 }, ...small])
    expect(fit.kind).toBe('fitted')
  })
})

describe('how sure a fit is', () => {
  const shares = of([1, 10], [9, 10], [5, 10], [7, 12], [3, 4])

  test('the information is the fall of the scores', () => {
    const { information, meanScore, spreadScore } = betaBinomialLikelihood(shares)
    const [mean, spread, step] = [0.55, 0.13, 1e-6]
    const slope = (score: (mean: number, spread: number) => number, byMean: number, bySpread: number) =>
      (score(mean - byMean, spread - bySpread) - score(mean + byMean, spread + bySpread)) / (2 * step)
    const found = information(mean, spread)
    expect(found.mean).toBeCloseTo(slope(meanScore, step, 0), 4)
    expect(found.both).toBeCloseTo(slope(meanScore, 0, step), 4)
    expect(found.both).toBeCloseTo(slope(spreadScore, step, 0), 4)
    expect(found.spread).toBeCloseTo(slope(spreadScore, 0, step), 4)
  })

  test('its uncertainty is the inverse of the curvature in the rate and the log spread', () => {
    const fit = fitBetaBinomial(shares)
    if (fit.kind !== 'fitted' || fit.uncertainty === null) throw new Error(fit.kind)
    const logSpread = -Math.log(fit.alpha + fit.beta)
    const at = (rate: number, log: number) => logLikelihood(shares, rate / Math.exp(log), (1 - rate) / Math.exp(log))
    const [h, top] = [1e-3, at(fit.rate, logSpread)]
    const a = -(at(fit.rate + h, logSpread) - 2 * top + at(fit.rate - h, logSpread)) / h ** 2
    const d = -(at(fit.rate, logSpread + h) - 2 * top + at(fit.rate, logSpread - h)) / h ** 2
    const corner = (x: number, y: number) => at(fit.rate + x * h, logSpread + y * h)
    const b = -(corner(1, 1) - corner(1, -1) - corner(-1, 1) + corner(-1, -1)) / (4 * h ** 2)
    const { rate, both, logSpread: spread } = fit.uncertainty
    expect(rate * a + both * b).toBeCloseTo(1, 3)
    expect(rate * b + both * d).toBeCloseTo(0, 3)
    expect(both * a + spread * b).toBeCloseTo(0, 1)
    expect(both * b + spread * d).toBeCloseTo(1, 3)
  })
})

describe('shrunk rate', () => {
  // The slopes of the estimate by rate and log spread are taken numerically here, the quantiles from @stdlib.
  test('the interval is enlarged by what the fit does not know', () => {
    const uncertainty = { rate: 0.002, both: -0.01, logSpread: 0.5 }
    const fit = { kind: 'fitted', groups: 9, rate: 0.7, alpha: 7, beta: 3, logLikelihood: 0, uncertainty } as const
    const [count, n] = [4, 8]
    const estimate = (rate: number, log: number) => (rate + count * Math.exp(log)) / (1 + n * Math.exp(log))
    const [log, h] = [-Math.log(10), 1e-5]
    const byRate = (estimate(0.7 + h, log) - estimate(0.7 - h, log)) / (2 * h)
    const byLog = (estimate(0.7, log + h) - estimate(0.7, log - h)) / (2 * h)
    const mean = 11 / 18
    const added = byRate ** 2 * 0.002 + 2 * byRate * byLog * -0.01 + byLog ** 2 * 0.5
    const sureness = (mean * (1 - mean)) / ((mean * (1 - mean)) / 19 + added) - 1
    const judged = shrunkRate(fit, { count, n })
    if (judged.kind !== 'shrunk') throw new Error(judged.kind)
    expect(judged.low).toBeCloseTo(betaQuantile(0.025, sureness * mean, sureness * (1 - mean)), 7)
    expect(judged.high).toBeCloseTo(betaQuantile(0.975, sureness * mean, sureness * (1 - mean)), 7)
    const known = shrunkRate({ ...fit, uncertainty: null }, { count, n })
    if (known.kind !== 'shrunk') throw new Error(known.kind)
    expect(judged.low < known.low && known.high < judged.high).toBe(true)
    expect(known.low).toBeCloseTo(betaQuantile(0.025, 11, 7), 9)
  })

  test('however little the fit knows, it is as sure as the attempts by themselves', () => {
    const uncertainty = { rate: 1e6, both: 0, logSpread: 1e6 }
    const fit = { kind: 'fitted', groups: 2, rate: 0.5, alpha: 2, beta: 2, logLikelihood: 0, uncertainty } as const
    const judged = shrunkRate(fit, { count: 3, n: 6 })
    if (judged.kind !== 'shrunk') throw new Error(judged.kind)
    expect(judged.low).toBeCloseTo(betaQuantile(0.025, 3, 3), 7)
  })

  test('lies between own and common rate, inside its interval, nearer its own with more attempts', () => {
    const fit = fitBetaBinomial(of([1, 10], [9, 10], [5, 10], [7, 12]))
    if (fit.kind !== 'fitted') throw new Error(fit.kind)
    fc.assert(
      fc.property(share, ({ count, n }) => {
        const [one, ten] = [shrunkRate(fit, { count, n }), shrunkRate(fit, { count: 10 * count, n: 10 * n })]
        if (one.kind !== 'shrunk' || ten.kind !== 'shrunk') throw new Error('not shrunk')
        const raw = count / n
        expect(Math.min(raw, fit.rate) <= one.rate + 1e-12 && one.rate <= Math.max(raw, fit.rate) + 1e-12).toBe(true)
        expect(one.low < one.rate && one.rate < one.high).toBe(true)
        expect(Math.abs(ten.rate - raw)).toBeLessThanOrEqual(Math.abs(one.rate - raw) + 1e-12)
        expect(ten.ownWeight).toBeGreaterThan(one.ownWeight)
        expect(one.rate).toBeCloseTo(one.ownWeight * raw + (1 - one.ownWeight) * fit.rate, 12)
      }),
    )
  })

  test('says why there is none', () => {
    expect(shrunkRate({ kind: 'one-group', groups: 1, rate: 0.5 }, { count: 1, n: 2 })).toEqual({
      kind: 'not-estimated',
      reason: 'one-group',
    })
    const pooled = fitBetaBinomial(of([5, 10], [5, 10]))
    expect(shrunkRate(pooled, { count: 4, n: 4 })).toEqual({ kind: 'pooled', rate: 0.5, few: true })
    expect(shrunkRate(pooled, { count: 0, n: 0 })).toEqual({ kind: 'no-data' })
  })
})

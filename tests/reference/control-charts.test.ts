import { describe, expect, test } from 'vitest'
import { funnelLimits } from '../../server/domain/statistics/control/funnel-limits.ts'
import { interpolatedBinomialLimit } from '../../server/domain/statistics/control/interpolated-binomial-limit.ts'
import { judgeFunnelPoint } from '../../server/domain/statistics/control/judge-funnel-point.ts'
import { type PeriodCount, pChart } from '../../server/domain/statistics/control/p-chart.ts'
import { expectDigits } from './support/expect-digits.ts'
import { readCsv } from './support/read-csv.ts'

function chart(periods: PeriodCount[]) {
  const result = pChart(periods)
  if (result.kind !== 'chart') throw new Error(result.kind)
  return { centre: result.centre, points: result.points.flatMap((point) => (point.kind === 'point' ? [point] : [])) }
}

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2: 30 samples of 50 wafers.
describe('NIST 6.3.3.2', () => {
  const samples = readCsv('nist_pchart_30x50.csv').map(({ sample, n, defective }) => ({
    label: sample!,
    n: Number(n),
    count: Number(defective),
  }))

  test('centre, limits and the points outside', () => {
    const { centre, points } = chart(samples)
    expectDigits(centre, '.2313333')
    expectDigits(points[0]!.low, '.0524275481')
    expectDigits(points[0]!.high, '.4102391186')
    expect(points.filter(({ beyond }) => beyond).map(({ label }) => label)).toEqual(['15', '23'])
    const signalled = points.filter(({ signals }) => signals.includes('beyond-limit'))
    expect(signalled.map(({ label }) => label)).toEqual(['15', '23'])
  })

  test('without 15 and 23, sample 21 is outside as well', () => {
    const { centre, points } = chart(samples.filter(({ label }) => label !== '15' && label !== '23'))
    expectDigits(centre, '.215')
    expectDigits(points[0]!.low, '.04070284')
    expectDigits(points[0]!.high, '.38929716')
    const outside = points.filter(({ beyond }) => beyond)
    expect(outside.map(({ label }) => label)).toEqual(['21'])
    // P(X ≥ 20 of 50 at .215) = .002356 (scipy 1.17): outside the drawn line, yet not as rare as three sigma should be.
    expect(outside[0]!.chance).toBeCloseTo(0.0023560626665259437, 10)
    expect(outside[0]!.signals).toEqual([])
  })
})

// Exercise 16.6, fliphtml5.com/eraqv/ufcc, p. 489: ten samples of 200.
test('ten samples of 200', () => {
  const counts = [40, 44, 22, 34, 24, 32, 28, 32, 34, 30]
  const { centre, points } = chart(counts.map((count, i) => ({ label: `${i + 1}`, count, n: 200 })))
  expectDigits(centre, '.16')
  expectDigits(points[0]!.low, '.0822')
  expectDigits(points[0]!.low, '.0822311')
  expectDigits(points[0]!.high, '.2378')
  expectDigits(points[0]!.high, '.2377689')
})

// D. J. Spiegelhalter (2005), Statistics in Medicine 24:1185–1202, appendix (formula from memory); recomputed with R
// and scipy.
describe('Spiegelhalter 2005, target .8', () => {
  test.each([
    [10, '.302464 .470506 .976717 .999069'],
    [13, '.367115 .521644 .965019 .998601'],
    [20, '.460746 .583885 .938316 .995663'],
  ])('%d attempts', (attempts, printed) => {
    const { limits95, limits998 } = funnelLimits(0.8, attempts)
    const limits = [limits998.low, limits95.low, limits95.high, limits998.high]
    printed.split(' ').forEach((digits, i) => {
      expectDigits(limits[i], digits)
    })
  })

  test('a tail below the least count starts at 0', () => {
    expect(interpolatedBinomialLimit(0.2, 3, 0.025)).toBe(0)
    expect(() => interpolatedBinomialLimit(0.2, 0, 0.025)).toThrow(RangeError)
  })

  // 0.8¹⁰ = .1073741824: 10 of 10 lies above the drawn .976717, and is no rarity.
  test('10 of 10 is at the limit, and does not differ', () => {
    const point = judgeFunnelPoint(10, 10, 0.8)
    expect(point).toMatchObject({ kind: 'judged', verdict: 'at-limit', differsAt: null, side: 'above' })
    expect(point.kind === 'judged' && point.chance).toBeCloseTo(0.1073741824, 12)
  })

  // P(X ≤ 6 of 13) = .0070 and P(X ≤ 4 of 13) = .00017 at .8 (scipy 1.17).
  test('6 of 13 differs at 95 %, 4 of 13 at 99.8 %', () => {
    expect(judgeFunnelPoint(6, 13, 0.8)).toMatchObject({ verdict: 'differs', differsAt: 0.95, side: 'below' })
    expect(judgeFunnelPoint(4, 13, 0.8)).toMatchObject({ verdict: 'differs', differsAt: 0.998, side: 'below' })
  })
})

import { describe, expect, test } from 'vitest'
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

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { bandShares } from '../../../../server/domain/statistics/readings/band-shares.ts'
import { binWidth } from '../../../../server/domain/statistics/readings/bin-width.ts'
import { fromMillionths } from '../../../../server/domain/statistics/readings/from-millionths.ts'
import { readingHistogram } from '../../../../server/domain/statistics/readings/reading-histogram.ts'

const once = (...values: string[]) => values.map((value) => ({ value, count: 1 }))
const rate = (result: ReturnType<typeof bandShares>['low']) => (result.kind === 'rate' ? result.rate : null)

describe('shares of the band', () => {
  test('the band is closed and compared as decimals', () => {
    const shares = bandShares(once('29.9', '30.0', '40', '40.01'), { min: '30', max: '40.0' })
    expect([shares.readings, rate(shares.low), rate(shares.within), rate(shares.high)]).toEqual([4, 0.25, 0.5, 0.25])
  })

  // 0.1 + 0.2 and 0.3 differ as binary fractions; as decimals the reading lies on the limit.
  test('no binary fraction in between', () => {
    expect(rate(bandShares(once('0.3'), { min: null, max: '0.3000' }).high)).toBe(0)
    expect(rate(bandShares(once('0.3001'), { min: null, max: '0.3' }).high)).toBe(1)
  })

  test('no limit on a side, no readings, a band upside down', () => {
    expect(rate(bandShares(once('-500', '9999'), { min: null, max: null }).within)).toBe(1)
    expect(bandShares([], { min: '1', max: '2' })).toMatchObject({ readings: 0, low: { kind: 'no-data' } })
    expect(() => bandShares(once('1'), { min: '3', max: '2' })).toThrow(RangeError)
    expect(() => bandShares(once('1,5'), { min: '1', max: '2' })).toThrow(RangeError)
  })
})

describe('width of bins', () => {
  test('reads well and fills the span', () => {
    expect(binWidth(10_000_000, true)).toBe(1_000_000)
    expect(binWidth(1_500_000, true)).toBe(100_000)
    expect(binWidth(37, false)).toBe(5)
    expect(binWidth(7, true)).toBe(1)
    expect(binWidth(61_000_000, true)).toBe(6_100_000)
    expect(binWidth(61, true)).toBe(1)
    expect(() => binWidth(0, true)).toThrow(RangeError)
  })
})

test('millionths as text', () => {
  expect([5_250_000, -250_000, 0, -7_000_000, 1].map(fromMillionths)).toEqual(['5.25', '-0.25', '0', '-7', '0.000001'])
})

describe('histogram', () => {
  test('limits of the band are edges, and a reading on one falls inside', () => {
    const bins = readingHistogram(once('29.9', '30', '34.9', '35', '40', '40.01', '41'), { min: '30', max: '40' })
    expect(bins[0]).toEqual({ side: 'low', from: '29', to: '30', count: 1 })
    expect(bins.filter(({ side }) => side === 'within').map(({ count }) => count)).toEqual([
      1, 0, 0, 0, 1, 1, 0, 0, 0, 1,
    ])
    expect(bins.at(-1)).toEqual({ side: 'high', from: '40', to: '41', count: 2 })
  })

  test('far-off readings go into one open bar', () => {
    const bins = readingHistogram(once('-900', '35', '9999'), { min: '30', max: '40' })
    expect(bins[0]).toEqual({ side: 'low', from: null, to: '20', count: 1 })
    expect(bins.at(-1)).toEqual({ side: 'high', from: '50', to: null, count: 1 })
    expect(bins).toHaveLength(1 + 10 + 10 + 10 + 1)
  })

  test('one limit, none, a band of one value, no readings', () => {
    const most = readingHistogram(once('1', '2', '9'), { min: null, max: '6' })
    expect(most.find(({ side }) => side === 'high')!.from).toBe('6')
    expect(
      readingHistogram(once('7', '8'), { min: null, max: '6' }).filter(({ side }) => side === 'within'),
    ).toHaveLength(1)
    expect(readingHistogram(once('3', '3.0'), { min: null, max: null })).toHaveLength(1)
    const point = readingHistogram(once('4', '5', '6'), { min: '5', max: '5' })
    expect(point.filter(({ side }) => side === 'within')).toEqual([{ side: 'within', from: '5', to: '5', count: 1 }])
    expect(readingHistogram([{ value: '3', count: 0 }], { min: '1', max: '5' })).toEqual([])
  })

  const value = fc.integer({ min: -20_000, max: 90_000 }).map((n) => (n / 1000).toFixed(3))
  const limit = fc.option(fc.integer({ min: -10, max: 80 }).map(String), { nil: null })
  const bands = fc
    .tuple(limit, limit)
    .map(([a, b]) => (a !== null && b !== null && Number(a) > Number(b) ? { min: b, max: a } : { min: a, max: b }))

  test('counts every reading once, on its side of the band, in bars without gaps', () => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 40 }), bands, (values, band) => {
        const readings = once(...values)
        const bins = readingHistogram(readings, band)
        const shares = bandShares(readings, band)
        for (const side of ['low', 'within', 'high'] as const) {
          const total = bins.filter((bin) => bin.side === side).reduce((sum, { count }) => sum + count, 0)
          const expected = shares[side]
          expect(total).toBe(expected.kind === 'rate' ? expected.count : 0)
        }
        bins.slice(1).forEach((bin, i) => {
          expect(bin.from).toBe(bins[i]!.to)
        })
        expect(bins.length).toBeLessThanOrEqual(11 + 20 + 11)
      }),
    )
  })

  test('a bar holds just the readings between its edges', () => {
    fc.assert(
      fc.property(value, bands, (single, band) => {
        const holder = readingHistogram(once(single), band).find(({ count }) => count === 1)!
        const [at, from, to] = [Number(single), Number(holder.from ?? -Infinity), Number(holder.to ?? Infinity)]
        expect(from <= at && at <= to).toBe(true)
        if (holder.side === 'high') expect(at).toBeGreaterThan(from)
        if (holder.side === 'low') expect(at).toBeLessThan(to)
      }),
    )
  })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import '../statistics/fixed-seed.ts'
import { bandShares } from '../../../../server/domain/statistics/readings/band-shares.ts'
import { fromMillionths } from '../../../../server/domain/statistics/readings/from-millionths.ts'
import { readingHistogram } from '../../../../server/domain/statistics/readings/reading-histogram.ts'
import { readingGrid } from '../../../../server/domain/tallies/reading-grid.ts'

/** Decimals as gauges and readings may have them: at most four before and after the point. */
const decimal = (most: number) =>
  fc.integer({ min: -most * 10_000, max: most * 10_000 }).map((n) => fromMillionths(n * 100))

const counted = (values: readonly string[]) => values.map((value) => ({ value, count: 1 }))
const binned = (values: readonly string[], grid: ReturnType<typeof readingGrid>) =>
  counted(values.map((value) => grid.valueAt(grid.placeOf(value))))

const band = fc
  .tuple(decimal(200), decimal(200))
  .filter(([a, b]) => Number(a) !== Number(b))
  .map(([a, b]) => (Number(a) < Number(b) ? { min: a, max: b } : { min: b, max: a }))

const anyGauge = fc.oneof(
  band,
  decimal(200).map((min) => ({ min, max: null })),
  decimal(200).map((max) => ({ min: null, max })),
  decimal(200).map((at) => ({ min: at, max: at })),
  fc.option(decimal(200)).map((target) => ({ min: null, max: null, target })),
)

describe('bins of readings', () => {
  test('of a band with two limits are the bars of its histogram, readings rounded or not', () => {
    fc.assert(
      fc.property(band, fc.array(decimal(300), { minLength: 1 }), (limits, values) => {
        const readings = binned(values, readingGrid(limits))
        expect(readingHistogram(readings, limits)).toEqual(readingHistogram(counted(values), limits))
      }),
    )
  })

  test('of any gauge keep every reading on its side of the band', () => {
    fc.assert(
      fc.property(anyGauge, decimal(9999), (gauge, value) => {
        const { min, max } = gauge
        expect(bandShares(binned([value], readingGrid(gauge)), { min, max })).toEqual(
          bandShares(counted([value]), { min, max }),
        )
      }),
    )
  })

  test('hold the value that stands for them, and rise with it', () => {
    fc.assert(
      fc.property(anyGauge, (gauge) => {
        const { size, valueAt, placeOf } = readingGrid(gauge)
        const values = Array.from({ length: size }, (_, place) => valueAt(place))
        expect(values.map(placeOf)).toEqual(values.map((_, place) => place))
        expect(values.map(Number)).toEqual(values.map(Number).sort((a, b) => a - b))
      }),
    )
  })

  // Widths by hand: the band of 2 in ten bars of 0.2; 6 has one digit before the point, so 0.1; 45 has two, so 1.
  test('are a tenth of the size of a single limit wide', () => {
    const atMost = (max: string) => readingGrid({ min: null, max })
    const apart = ({ placeOf }: ReturnType<typeof readingGrid>, a: string, b: string) => placeOf(b) - placeOf(a)
    expect(apart(readingGrid({ min: '4', max: '6' }), '4.1', '5.9')).toBe(9)
    expect(apart(atMost('6'), '5.05', '5.15')).toBe(1)
    expect(apart(atMost('6'), '5.11', '5.19')).toBe(0)
    expect(apart(atMost('45'), '40.1', '40.9')).toBe(0)
    expect(apart(atMost('45'), '40.1', '41.1')).toBe(1)
    expect(apart(atMost('45'), '45', '45.01')).toBe(1)
  })
})

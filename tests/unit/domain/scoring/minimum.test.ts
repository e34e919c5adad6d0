import '../statistics/fixed-seed.ts'
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { minimumGo } from '../../../../server/domain/scoring/minimum.ts'

/** The definition itself, by search in whole numbers: the least m with 100·m ≥ percent·n, percent = part / scale. */
const leastByDefinition = (part: bigint, scale: bigint, measures: number): number => {
  let m = 0n
  while (100n * scale * m < part * BigInt(measures)) m += 1n
  return Number(m)
}

describe('minimumGo', () => {
  // tests/reference/data/thresholds_70_80.csv: 70 and 80 percent of 1 to 40 measures, made with Python's fractions.
  const table = readFileSync(new URL('../../../reference/data/thresholds_70_80.csv', import.meta.url), 'utf8')
  const rows = table
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number) as [number, number, number])

  it('has the whole table to go by', () => {
    expect(rows.map(([measures]) => measures)).toEqual(Array.from({ length: 40 }, (_, index) => index + 1))
  })

  it.each(rows)('of %i measures asks %i at 70 percent and %i at 80', (measures, at70, at80) => {
    expect(minimumGo('70', measures)).toBe(at70)
    expect(minimumGo('80', measures)).toBe(at80)
  })

  // 28/100·25 and 56/100·25 are the only integer percents with n ≤ 40 where IEEE doubles round up past the whole number.
  it.each([
    ['28', 25, 7],
    ['56', 25, 14],
  ])('asks %s percent of %i exactly, where floating point asks one more', (percent, measures, expected) => {
    expect(Math.ceil((Number(percent) / 100) * measures)).toBe(expected + 1)
    expect(minimumGo(percent, measures)).toBe(expected)
  })

  // 0.01·70·n is a hair above the whole number in IEEE doubles for these n.
  it.each([10, 20, 30, 40])('asks 70 percent of %i exactly', (measures) => {
    expect(Math.ceil(70 * 0.01 * measures)).toBe((measures / 10) * 7 + 1)
    expect(minimumGo('70', measures)).toBe((measures / 10) * 7)
  })

  // These shares print as the whole percentage although they lie below it.
  it.each([
    ['70', 16, 23],
    ['70', 23, 33],
    ['70', 30, 43],
    ['70', 32, 46],
    ['70', 37, 53],
    ['70', 39, 56],
    ['80', 35, 44],
    ['80', 39, 49],
    ['80', 43, 54],
    ['80', 47, 59],
  ])('is not met at %s percent by %i of %i', (percent, passed, measures) => {
    expect(Math.round((passed / measures) * 100)).toBe(Number(percent))
    expect(minimumGo(percent, measures)).toBe(passed + 1)
  })

  it('is the least whole number by definition for every whole percent and up to 40 measures', () => {
    for (let percent = 1; percent <= 100; percent++) {
      for (let measures = 1; measures <= 40; measures++) {
        expect(minimumGo(String(percent), measures), `${percent} % of ${measures}`).toBe(
          leastByDefinition(BigInt(percent), 1n, measures),
        )
      }
    }
  })

  // By hand: 66.7·3 = 200.1 > 200 asks 3; 66.6·3 = 199.8 asks 2; 33.333333·3 = 99.999999 asks 1, 33.333334·3 asks 2.
  it.each([
    ['66.7', 3, 3],
    ['66.6', 3, 2],
    ['33.333333', 3, 1],
    ['33.333334', 3, 2],
    ['0.000001', 13, 1],
    ['100', 13, 13],
    ['100.000000', 13, 13],
    ['80.0', 13, 11],
    ['12.5', 8, 1],
    ['12.500001', 8, 2],
    ['80', 0, 0],
  ])('at %s percent of %i measures is %i', (percent, measures, expected) => {
    expect(minimumGo(percent, measures)).toBe(expected)
  })

  it('is the least whole number by definition for percents with decimals', () => {
    const percents = fc
      .integer({ min: 0, max: 6 })
      .chain((decimals) => fc.integer({ min: 1, max: 100 * 10 ** decimals }).map((part) => ({ part, decimals })))
    fc.assert(
      fc.property(percents, fc.integer({ min: 1, max: 200 }), ({ part, decimals }, measures) => {
        const percent = (part / 10 ** decimals).toFixed(decimals)
        expect(minimumGo(percent, measures)).toBe(leastByDefinition(BigInt(part), 10n ** BigInt(decimals), measures))
      }),
      { numRuns: 500 },
    )
  })
})

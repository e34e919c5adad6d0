import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { agreementBand } from '../../../../server/domain/statistics/agreement/agreement-band.ts'
import { cohenKappa } from '../../../../server/domain/statistics/agreement/cohen-kappa.ts'
import { fleissKappa } from '../../../../server/domain/statistics/agreement/fleiss-kappa.ts'
import { gwetAc1 } from '../../../../server/domain/statistics/agreement/gwet-ac1.ts'

const count = fc.integer({ min: 0, max: 60 })
const table = fc
  .integer({ min: 2, max: 4 })
  .chain((size) =>
    fc.array(fc.array(count, { minLength: size, maxLength: size }), { minLength: size, maxLength: size }),
  )
const ratings = fc.integer({ min: 2, max: 4 }).chain((categories) =>
  fc.array(
    fc.record({
      ratings: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: categories, maxLength: categories }),
      sheets: fc.integer({ min: 0, max: 9 }),
    }),
    { minLength: 1, maxLength: 12 },
  ),
)

describe("Cohen's kappa", () => {
  test('lies in [−1, 1], its interval around it', () => {
    fc.assert(
      fc.property(table, (cells) => {
        const kappa = cohenKappa(cells)
        if (kappa.kind === 'undefined') return
        expect(Math.abs(kappa.value)).toBeLessThanOrEqual(1 + 1e-12)
        if (kappa.interval)
          expect(
            -1 <= kappa.interval.low &&
              kappa.interval.low <= kappa.value &&
              kappa.value <= kappa.interval.high &&
              kappa.interval.high <= 1,
          ).toBe(true)
      }),
    )
  })

  test('does not change when graders are swapped or categories renamed', () => {
    fc.assert(
      fc.property(table, (cells) => {
        const kappa = cohenKappa(cells)
        const swapped = cohenKappa(cells.map((_, i) => cells.map((row) => row[i]!)))
        const renamed = cohenKappa([...cells].reverse().map((row) => [...row].reverse()))
        for (const other of [swapped, renamed]) {
          expect(other.kind).toBe(kappa.kind)
          if (kappa.kind === 'undefined' || other.kind === 'undefined') continue
          expect(other.value).toBeCloseTo(kappa.value, 12)
          expect(other.standardError).toBeCloseTo(kappa.standardError!, 9)
        }
      }),
    )
  })

  test('is 1 for identical ratings of both kinds, and then claims no certainty', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 60 }), (go, noGo) => {
        const kappa = cohenKappa([
          [go, 0],
          [0, noGo],
        ])
        if (kappa.kind === 'undefined') throw new Error(kappa.reason)
        expect(kappa.value).toBeCloseTo(1, 12)
        expect(kappa).toMatchObject({ interval: null, band: 'almost-perfect' })
      }),
    )
  })

  test('is 0 when one grader always says GO and the other does not', () => {
    expect(
      cohenKappa([
        [8, 4],
        [0, 0],
      ]),
    ).toMatchObject({ kind: 'agreement', value: 0, band: 'slight' })
  })

  test('refuses a table that is not square', () => {
    expect(() => cohenKappa([[1, 2], [3]])).toThrow(/square/)
    expect(() =>
      cohenKappa([
        [1, -2],
        [3, 4],
      ]),
    ).toThrow(RangeError)
  })
})

describe.each([
  ["Fleiss' kappa", fleissKappa],
  ["Gwet's AC1", gwetAc1],
] as const)('%s', (_, coefficient) => {
  test('is at most 1, the same in any order, with categories renamed and with a tally taken apart', () => {
    fc.assert(
      fc.property(ratings, (rated) => {
        const whole = coefficient(rated)
        const renamed = rated.map((sheet) => ({ ...sheet, ratings: [...sheet.ratings].reverse() })).reverse()
        const apart = rated.flatMap(({ ratings: marks, sheets }) =>
          Array.from({ length: sheets }, () => ({ ratings: marks, sheets: 1 })),
        )
        for (const other of [coefficient(renamed), coefficient(apart)]) {
          if (apart.length === 0) continue
          expect(other.kind).toBe(whole.kind)
          if (whole.kind === 'undefined' || other.kind === 'undefined') continue
          expect(other.value).toBeCloseTo(whole.value, 10)
          expect(other.standardError ?? 0).toBeCloseTo(whole.standardError ?? 0, 9)
        }
        if (whole.kind === 'agreement') expect(whole.value).toBeLessThanOrEqual(1 + 1e-12)
      }),
    )
  })

  test('is 1 when all graders agree on every sheet and both outcomes occur', () => {
    const agreed = coefficient([
      { ratings: [3, 0], sheets: 7 },
      { ratings: [0, 2], sheets: 4 },
    ])
    expect(agreed).toMatchObject({ kind: 'agreement', value: 1, interval: null, subjects: 11 })
  })

  test('has no standard error from one sheet, and refuses one category or mixed sets of them', () => {
    expect(coefficient([{ ratings: [1, 1], sheets: 1 }])).toMatchObject({ standardError: null, interval: null })
    expect(() => coefficient([{ ratings: [2], sheets: 1 }])).toThrow(RangeError)
    expect(() =>
      coefficient([
        { ratings: [1, 1], sheets: 1 },
        { ratings: [1, 1, 0], sheets: 1 },
      ]),
    ).toThrow(RangeError)
  })
})

test('bands rise with the value, and what is no coefficient is refused', () => {
  const order = ['poor', 'slight', 'fair', 'moderate', 'substantial', 'almost-perfect']
  const value = fc.double({ min: -1, max: 1, noNaN: true })
  fc.assert(
    fc.property(value, value, (x, y) => {
      const [lower, upper] = [Math.min(x, y), Math.max(x, y)].map((v) => order.indexOf(agreementBand(v))) as [
        number,
        number,
      ]
      expect(lower).toBeLessThanOrEqual(upper)
    }),
  )
  // Two sheets, one rated once as NO-GO, one GO and NO-GO: Fleiss' kappa is −5/3, by hand.
  const lonely = fleissKappa([
    { ratings: [0, 1], sheets: 1 },
    { ratings: [1, 1], sheets: 1 },
  ])
  expect(lonely).toMatchObject({ value: expect.closeTo(-5 / 3, 12), band: 'poor' })
  expect(agreementBand(0.1 + 0.3)).toBe('fair')
  expect(agreementBand(0.4 + 2e-14)).toBe('fair')
  expect(() => agreementBand(Number.NaN)).toThrow(RangeError)
})

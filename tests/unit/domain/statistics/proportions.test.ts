import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { binomialDensity } from '../../../../server/domain/statistics/numeric/binomial-density.ts'
import { benjaminiHochberg } from '../../../../server/domain/statistics/proportions/benjamini-hochberg.ts'
import { compareManyRates } from '../../../../server/domain/statistics/proportions/compare-many-rates.ts'
import { compareRates } from '../../../../server/domain/statistics/proportions/compare-rates.ts'
import { exactInterval } from '../../../../server/domain/statistics/proportions/exact-interval.ts'
import { fisherExactTest } from '../../../../server/domain/statistics/proportions/fisher-exact-test.ts'
import { judgeRate } from '../../../../server/domain/statistics/proportions/judge-rate.ts'
import { phiCoefficient } from '../../../../server/domain/statistics/proportions/phi-coefficient.ts'
import type { ProportionInterval } from '../../../../server/domain/statistics/proportions/proportion-interval.ts'
import type { Share } from '../../../../server/domain/statistics/proportions/share.ts'
import { wilsonInterval } from '../../../../server/domain/statistics/proportions/wilson-interval.ts'

const share = fc
  .integer({ min: 1, max: 400 })
  .chain((n) => fc.integer({ min: 0, max: n }).map((count) => ({ count, n })))
const level = fc.constantFrom(0.8, 0.9, 0.95, 0.99, 0.998)
const methods = [
  ['Wilson', wilsonInterval],
  ['exact', exactInterval],
] as const

function limits(result: ProportionInterval) {
  if (result.kind !== 'interval') throw new Error(result.kind)
  return result
}

describe.each(methods)('%s interval', (_, interval) => {
  test('holds the rate, inside [0, 1]', () => {
    fc.assert(
      fc.property(share, level, (s, l) => {
        const { low, rate, high } = limits(interval(s, l))
        expect(0 <= low && low <= rate && rate <= high && high <= 1).toBe(true)
      }),
    )
  })

  test('of failures is the mirror image of that of passes', () => {
    fc.assert(
      fc.property(share, level, ({ count, n }, l) => {
        const passes = limits(interval({ count, n }, l))
        const failures = limits(interval({ count: n - count, n }, l))
        expect(failures.low).toBeCloseTo(1 - passes.high, 11)
        expect(failures.high).toBeCloseTo(1 - passes.low, 11)
      }),
    )
  })

  test('rises with the count and widens with the level', () => {
    fc.assert(
      fc.property(share, ({ count, n }) => {
        const here = limits(interval({ count, n }))
        const wider = limits(interval({ count, n }, 0.99))
        expect(wider.low <= here.low && wider.high >= here.high).toBe(true)
        if (count === n) return
        const next = limits(interval({ count: count + 1, n }))
        expect(next.low > here.low && next.high >= here.high).toBe(true)
      }),
    )
  })

  test('reaches the end of the scale exactly when all or none passed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.double({ min: 0.5, max: 0.999, noNaN: true }), (n, l) => {
        expect(limits(interval({ count: 0, n }, l)).low).toBe(0)
        expect(limits(interval({ count: n, n }, l)).high).toBe(1)
      }),
    )
  })

  test('refuses what is no count and no level', () => {
    for (const bad of [
      { count: 3, n: 2 },
      { count: -1, n: 2 },
      { count: 0.5, n: 2 },
      { count: 1, n: Number.NaN },
    ])
      expect(() => interval(bad)).toThrow(RangeError)
    expect(() => interval({ count: 1, n: 2 }, 1)).toThrow(RangeError)
    expect(() => interval({ count: 1, n: 2 }, 95)).toThrow(RangeError)
  })
})

/** How often an interval of n attempts holds a true rate, summed exactly over all counts. */
function coverage(interval: (s: Share) => ProportionInterval, n: number, rate: number): number {
  let covered = 0
  for (let count = 0; count <= n; count++) {
    const { low, high } = limits(interval({ count, n }))
    if (low <= rate && rate <= high) covered += binomialDensity(count, n, rate)
  }
  return covered
}

test('the exact interval covers at least as often as it says; Wilson comes near it on average', () => {
  const rates = Array.from({ length: 97 }, (_, i) => (i + 2) / 100 + 0.003)
  for (const n of [5, 13, 40]) {
    const exact = rates.map((rate) => coverage(exactInterval, n, rate))
    expect(Math.min(...exact)).toBeGreaterThanOrEqual(0.95)
    const wilson = rates.map((rate) => coverage(wilsonInterval, n, rate))
    const mean = wilson.reduce((sum, value) => sum + value, 0) / wilson.length
    expect(mean).toBeGreaterThan(0.94)
    expect(mean).toBeLessThan(0.97)
  }
})

test('a rate of fewer than five attempts is labelled', () => {
  expect(judgeRate({ count: 2, n: 4 })).toMatchObject({ kind: 'rate', few: true })
  expect(judgeRate({ count: 2, n: 5 })).toMatchObject({ kind: 'rate', few: false, count: 2, n: 5, rate: 0.4 })
})

describe('comparison of two rates', () => {
  test('swapping sides mirrors it; it lies in [−1, 1] and holds the difference', () => {
    fc.assert(
      fc.property(share, share, level, (a, b, l) => {
        const [forth, back] = [compareRates(a, b, l), compareRates(b, a, l)]
        if (forth.kind === 'no-data' || back.kind === 'no-data') throw new Error('no data')
        expect(back.interval.low).toBeCloseTo(-forth.interval.high, 12)
        expect(back.differs).toBe(forth.differs)
        const { low, high } = forth.interval
        expect(-1 <= low && low <= forth.difference && forth.difference <= high && high <= 1).toBe(true)
      }),
    )
  })

  test('equal rates never differ', () => {
    fc.assert(
      fc.property(share, (a) => {
        expect(compareRates(a, a)).toMatchObject({ differs: false, difference: 0 })
      }),
    )
  })

  test('in a family, one clear difference is called and twenty like it by chance are not', () => {
    const clear = { key: 'draw', first: { count: 40, n: 100 }, second: { count: 10, n: 100 } }
    const slight = (i: number) => ({ key: `m${i}`, first: { count: 22, n: 100 }, second: { count: 11, n: 100 } })
    const [alone] = compareManyRates([slight(0)])
    expect(alone).toMatchObject({ verdict: 'not-shown' })
    const empty = { key: 'none', first: { count: 0, n: 0 }, second: { count: 1, n: 1 } }
    const flat = Array.from({ length: 20 }, (_, i) => ({ ...slight(i), second: { count: 21, n: 100 } }))
    const judged = compareManyRates([empty, clear, ...flat])
    expect(judged.map(({ verdict }) => verdict)).toEqual(['no-data', 'higher', ...flat.map(() => 'not-shown')])
    expect(judged.map(({ key }) => key)).toEqual(['none', 'draw', ...flat.map(({ key }) => key)])
    expect(compareManyRates([{ ...clear, first: clear.second, second: clear.first }])[0]).toMatchObject({
      verdict: 'lower',
    })
  })
})

describe('Fisher exact test', () => {
  const cell = fc.integer({ min: 0, max: 25 })

  /** Sum of the exact table weights with whole numbers only. */
  function bruteForce(a: number, b: number, c: number, d: number): number {
    const choose = (n: number, k: number) => {
      let result = 1n
      for (let i = 0; i < k; i++) result = (result * BigInt(n - i)) / BigInt(i + 1)
      return result
    }
    const [row, column, n] = [a + b, a + c, a + b + c + d]
    const weight = (x: number) =>
      x > column || row - x > n - column ? 0n : choose(column, x) * choose(n - column, row - x)
    let asRare = 0n
    for (let x = 0; x <= row; x++) if (weight(x) <= weight(a)) asRare += weight(x)
    return Number((asRare * 10n ** 18n) / choose(n, row)) / 1e18
  }

  test('equals the enumeration of all tables in whole numbers', () => {
    fc.assert(
      fc.property(cell, cell, cell, cell, (a, b, c, d) => {
        expect(fisherExactTest(a, b, c, d)).toBeCloseTo(bruteForce(a, b, c, d), 12)
      }),
    )
  })

  test('does not change when rows, columns or both measures are swapped', () => {
    fc.assert(
      fc.property(cell, cell, cell, cell, (a, b, c, d) => {
        const p = fisherExactTest(a, b, c, d)
        for (const swapped of [fisherExactTest(c, d, a, b), fisherExactTest(b, a, d, c), fisherExactTest(a, c, b, d)])
          expect(swapped).toBeCloseTo(p, 12)
      }),
    )
  })
})

test('phi: within [−1, 1], 1 for identical outcomes, its sign turned by turning one measure', () => {
  const cell = fc.integer({ min: 0, max: 300 })
  fc.assert(
    fc.property(cell, cell, cell, cell, (both, firstOnly, secondOnly, neither) => {
      const phi = phiCoefficient({ both, firstOnly, secondOnly, neither })
      const turned = phiCoefficient({ both: firstOnly, firstOnly: both, secondOnly: neither, neither: secondOnly })
      expect(turned.kind).toBe(phi.kind)
      if (phi.kind === 'phi' && turned.kind === 'phi') {
        expect(Math.abs(phi.value)).toBeLessThanOrEqual(1)
        expect(turned.value).toBeCloseTo(-phi.value, 12)
      }
    }),
  )
  expect(phiCoefficient({ both: 7, firstOnly: 0, secondOnly: 0, neither: 20 })).toEqual({ kind: 'phi', value: 1 })
  for (const always of [
    { both: 3, firstOnly: 4, secondOnly: 0, neither: 0 },
    { both: 3, firstOnly: 0, secondOnly: 4, neither: 0 },
    { both: 0, firstOnly: 0, secondOnly: 3, neither: 4 },
    { both: 0, firstOnly: 3, secondOnly: 0, neither: 4 },
  ])
    expect(phiCoefficient(always)).toEqual({ kind: 'undefined', reason: 'one-never-varies' })
})

describe('Benjamini–Hochberg', () => {
  const pValues = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 40 })

  test('never lowers a p-value, stays within 1 and keeps the order of the p-values', () => {
    fc.assert(
      fc.property(pValues, (values) => {
        const adjusted = benjaminiHochberg(values)
        values.forEach((p, i) => {
          expect(adjusted[i]! >= p * (1 - 1e-15) && adjusted[i]! <= 1).toBe(true)
          values.forEach((other, j) => {
            if (p < other) expect(adjusted[i]!).toBeLessThanOrEqual(adjusted[j]!)
          })
        })
      }),
    )
  })

  test('goes with the values when they are put in another order', () => {
    fc.assert(
      fc.property(pValues, (values) => {
        expect(benjaminiHochberg([...values].reverse())).toEqual([...benjaminiHochberg(values)].reverse())
      }),
    )
  })

  test('refuses what is no probability', () => {
    expect(() => benjaminiHochberg([0.5, 1.5])).toThrow(RangeError)
    expect(() => benjaminiHochberg([Number.NaN])).toThrow(RangeError)
  })
})

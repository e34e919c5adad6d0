import { describe, expect, test } from 'vitest'
import { benjaminiHochberg } from '../../server/domain/statistics/proportions/benjamini-hochberg.ts'
import { compareRates } from '../../server/domain/statistics/proportions/compare-rates.ts'
import { fisherExactTest } from '../../server/domain/statistics/proportions/fisher-exact-test.ts'
import { phiCoefficient } from '../../server/domain/statistics/proportions/phi-coefficient.ts'
import { expectDigits, expectInterval } from './support/expect-digits.ts'

function compared(a: number, m: number, b: number, n: number) {
  const result = compareRates({ count: a, n: m }, { count: b, n })
  if (result.kind !== 'difference') throw new Error(result.kind)
  return result
}

// R. G. Newcombe (1998), Statistics in Medicine 17:873–890, Table II, method 10; the longer digits recomputed with
// R 4.2.2 (Epi::ci.pd, method "Nc").
describe('Newcombe 1998, Table II, method 10', () => {
  test('a: 56/70 − 48/80', () => {
    const { difference, interval, differs } = compared(56, 70, 48, 80)
    expectDigits(difference, '.2000')
    expectInterval(interval, '.0524 – .3339')
    expectInterval(interval, '.0524314724 – .3338726540')
    expect(differs).toBe(true)
  })

  test('d: 5/56 − 0/29', () => {
    const { difference, interval, differs } = compared(5, 56, 0, 29)
    expectDigits(difference, '.0892857')
    expectInterval(interval, '-.0381 – .1926')
    expectInterval(interval, '-.0381371479 – .1925600139')
    expect(differs).toBe(false)
  })

  test('f: 0/10 − 0/10', () => {
    expectInterval(compared(0, 10, 0, 10).interval, '-.2775327999 – .2775327999')
  })

  test('g: 10/10 − 0/20', () => {
    const { interval } = compared(10, 10, 0, 20)
    expectDigits(interval.low, '.6790860371')
    expect(interval.high).toBe(1)
  })
})

test('a comparison without data on a side says on which', () => {
  expect(compareRates({ count: 0, n: 0 }, { count: 1, n: 2 })).toEqual({ kind: 'no-data', missing: 'first' })
  expect(compareRates({ count: 1, n: 2 }, { count: 0, n: 0 })).toEqual({ kind: 'no-data', missing: 'second' })
  expect(compareRates({ count: 0, n: 0 }, { count: 0, n: 0 })).toEqual({ kind: 'no-data', missing: 'both' })
})

describe('Fisher exact test', () => {
  // R. A. Fisher (1935), The Design of Experiments, ch. 2: 3 of 4 cups right in each half; 34 of 70 arrangements.
  test('the lady tasting tea', () => {
    expect(fisherExactTest(3, 1, 1, 3)).toBeCloseTo(34 / 70, 14)
  })

  // R. A. Fisher (1962/1970), criminal twins, in the help page of R's fisher.test; printed p-value from memory,
  // confirmed by scipy.stats.fisher_exact.
  test('convictions of like-sex twins', () => {
    expectDigits(fisherExactTest(2, 15, 10, 3), '.0005367')
  })

  test('an empty margin leaves one table only', () => {
    expect(fisherExactTest(0, 0, 4, 9)).toBe(1)
    expect(fisherExactTest(0, 0, 0, 0)).toBe(1)
  })

  // Recomputed with scipy 1.17: the counts are far past where a factorial overflows.
  test('large counts', () => {
    expect(fisherExactTest(900, 4100, 1010, 3990) / 0.005546608251192304).toBeCloseTo(1, 8)
  })
})

// Y. Benjamini & Y. Hochberg (1995), J. R. Stat. Soc. B 57:289–300, section 3.2; adjusted values recomputed with R
// p.adjust.
test('Benjamini–Hochberg 1995: 15 hypotheses, 4 rejected at .05', () => {
  const p = '.0001 .0004 .0019 .0095 .0201 .0278 .0298 .0344 .0459 .3240 .4262 .5719 .6528 .7590 1'
  const adjusted = `.0015 .003 .0095 .035625 .0603 .0638571429 .0638571429 .0645
    .0765 .486 .5811818182 .714875 .7532307692 .8132142857 1`.split(/\s+/)
  const result = benjaminiHochberg(p.split(' ').map(Number))
  adjusted.forEach((digits, i) => {
    expect(result[i]).toBeCloseTo(Number(digits), 9)
  })
  expect(result.filter((value) => value <= 0.05)).toHaveLength(4)
})

test('Benjamini–Hochberg keeps the order it was given', () => {
  expect(benjaminiHochberg([0.04, 0.01, 0.03]).map((p) => Math.round(p * 1e12) / 1e12)).toEqual([0.04, 0.03, 0.04])
  expect(benjaminiHochberg([])).toEqual([])
})

// By hand from the definition: (8·8 − 2·2)/√(10·10·10·10) = 0.6.
test('phi by hand, and undefined where a measure never varies', () => {
  const phi = phiCoefficient({ both: 8, firstOnly: 2, secondOnly: 2, neither: 8 })
  expect(phi).toEqual({ kind: 'phi', value: 0.6 })
  expect(phiCoefficient({ both: 0, firstOnly: 0, secondOnly: 3, neither: 9 })).toEqual({
    kind: 'undefined',
    reason: 'one-never-varies',
  })
  expect(phiCoefficient({ both: 0, firstOnly: 0, secondOnly: 0, neither: 0 })).toEqual({
    kind: 'undefined',
    reason: 'no-data',
  })
})

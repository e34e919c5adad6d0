import { describe, expect, test } from 'vitest'
import { feldtInterval } from '../../server/domain/statistics/test-theory/feldt-interval.ts'
import { itemAnalysis } from '../../server/domain/statistics/test-theory/item-analysis.ts'
import type { ItemRest } from '../../server/domain/statistics/test-theory/item-rest-correlation.ts'
import type { Reliability } from '../../server/domain/statistics/test-theory/kuder-richardson.ts'
import { expectDigits, expectInterval } from './support/expect-digits.ts'
import { readCsv } from './support/read-csv.ts'

const value = (result: Reliability | ItemRest) => (result.kind === 'undefined' ? null : result.value)

// R. D. Bock & M. Lieberman (1970), Psychometrika 35:179–197; data and item totals in the documentation of R ltm (α
// .295 published); item–rest correlations and α if deleted recomputed with R psych 2.2.9.
test('LSAT section 6: 1000 persons, 5 items', () => {
  const patterns = readCsv('lsat6_patterns.csv').map(({ pattern, n }) => ({
    marks: [...pattern!].map(Number),
    count: Number(n),
  }))
  const analysis = itemAnalysis(patterns, 0)
  expect(analysis.sheets).toBe(1000)
  const passed = analysis.items.map(({ difficulty }) => (difficulty.kind === 'rate' ? difficulty.count : null))
  expect(passed).toEqual([924, 709, 553, 763, 870])
  expectDigits(value(analysis.reliability), '.295')
  expectDigits(value(analysis.reliability), '.294997192')
  const itemRest = '.112832689 .153178120 .172778943 .144428095 .121596403'.split(' ')
  const ifDeleted = '.275356211 .237583905 .216799463 .245932710 .266294411'.split(' ')
  analysis.items.forEach((item, i) => {
    expectDigits(value(item.itemRest), itemRest[i]!)
    expectDigits(value(item.ifDeleted), ifDeleted[i]!)
    expect(item.remarks).toEqual([])
  })
})

// K. Wuensch, core.ecu.edu/wuenschk/StatHelp/KR20.txt: 10 students, 10 items; the total variance printed there is 5.84
// (divisor n), Σpq 2.18; item–rest correlations recomputed with R psych.
test('Wuensch: 10 students, 10 items', () => {
  const patterns = readCsv('ecu_kr20_10x10.csv').map(({ student, ...marks }) => ({
    marks: Object.values(marks).map(Number),
    count: 1,
  }))
  const analysis = itemAnalysis(patterns, 3)
  expect(analysis.leftOut).toBe(3)
  expectDigits(value(analysis.reliability), '.696347032')
  expect(value(analysis.reliability)).toBeCloseTo((10 / 9) * (1 - 2.18 / 5.84), 12)
  const difficulty = analysis.items.map((item) => (item.difficulty.kind === 'rate' ? item.difficulty.rate : null))
  expect(difficulty).toEqual([0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6])
  const itemRest = '.705889 .705889 0 .473589 .583874 .286147 -.027445 .705889 -.123613 .475867'.split(' ')
  analysis.items.forEach((item, i) => {
    expect(value(item.itemRest)).toBeCloseTo(Number(itemRest[i]), 6)
  })
  const against = analysis.items.flatMap(({ remarks }, i) =>
    remarks.includes('works-against-the-rest') ? [i + 1] : [],
  )
  expect(against).toEqual([7, 9])
  const raised = analysis.items.flatMap(({ ifDeleted }, i) =>
    value(ifDeleted)! > value(analysis.reliability)! ? [i + 1] : [],
  )
  expect(raised).toEqual([3, 7, 9])
  // Of ten students none of these rises is more than chance allows.
  expect(analysis.items.filter(({ remarks }) => remarks.includes('reliability-rises-without'))).toEqual([])
})

// L. S. Feldt (1965), Psychometrika 30:357–370. The first printed in the help page of R statpsych 2.0,
// ci.cronbach(.05, .85, 7, 89); the second the example of Feldt, Woodruff & Salih (1987), Applied Psychological
// Measurement 11:93–103 (α .79, 26 items, 41 examinees, 90 %), limits recomputed with scipy 1.17.
test('Feldt interval', () => {
  expectInterval(feldtInterval(0.85, 89, 7), '.7971 – .8932')
  expectInterval(feldtInterval(0.79, 41, 26, 0.9), '.7046759615 – .8616144526')
  expect(() => feldtInterval(0.5, 1, 7)).toThrow(RangeError)
})

describe('what cannot be said', () => {
  const analyse = (rows: number[][]) =>
    itemAnalysis(
      rows.map((marks) => ({ marks, count: 1 })),
      0,
    )

  test('an item everybody passed has no correlation', () => {
    const { items } = analyse([
      [1, 1, 0],
      [1, 0, 0],
      [1, 1, 1],
    ])
    expect(items[0]!.itemRest).toEqual({ kind: 'undefined', reason: 'item-never-varies' })
    expect(items[0]!.remarks).toContain('everybody-alike')
  })

  test('one score for all, one item, one sheet, no sheet', () => {
    const same = analyse([
      [1, 0],
      [0, 1],
    ])
    expect(same.reliability).toEqual({ kind: 'undefined', reason: 'no-variation' })
    expect(analyse([[1], [0]]).reliability).toEqual({ kind: 'undefined', reason: 'one-item' })
    expect(analyse([[1], [0]]).items[0]!.itemRest).toEqual({ kind: 'undefined', reason: 'one-item' })
    expect(analyse([[1, 0]]).reliability).toEqual({ kind: 'undefined', reason: 'one-sheet' })
    expect(analyse([]).reliability).toEqual({ kind: 'undefined', reason: 'no-data' })
  })

  test('gaps and foreign marks are refused', () => {
    expect(() => analyse([[1, 0], [1]])).toThrow(RangeError)
    expect(() => analyse([[1, 2]])).toThrow(RangeError)
  })
})

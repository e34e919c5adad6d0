import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { itemAnalysis } from '../../../../server/domain/statistics/test-theory/item-analysis.ts'
import { itemRestCorrelation } from '../../../../server/domain/statistics/test-theory/item-rest-correlation.ts'
import { kuderRichardson } from '../../../../server/domain/statistics/test-theory/kuder-richardson.ts'
import { responseSums } from '../../../../server/domain/statistics/test-theory/response-sums.ts'

const matrix = fc.integer({ min: 2, max: 7 }).chain((items) =>
  fc.array(fc.array(fc.integer({ min: 0, max: 1 }), { minLength: items, maxLength: items }), {
    minLength: 2,
    maxLength: 30,
  }),
)
const sums = (rows: readonly (readonly number[])[]) => responseSums(rows.map((marks) => ({ marks, count: 1 })))

const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
const covariance = (x: number[], y: number[]) => mean(x.map((value, i) => (value - mean(x)) * (y[i]! - mean(y))))
const column = (rows: number[][], j: number) => rows.map((row) => row[j]!)
const total = (rows: number[][], without = -1) =>
  rows.map((row) => row.reduce((sum, mark, j) => sum + (j === without ? 0 : mark), 0))

describe('against the definitions, computed from deviations row by row', () => {
  test('KR-20', () => {
    fc.assert(
      fc.property(matrix, (rows) => {
        const result = kuderRichardson(sums(rows))
        const variance = covariance(total(rows), total(rows))
        if (variance < 1e-12) {
          expect(result).toEqual({ kind: 'undefined', reason: 'no-variation' })
          return
        }
        if (result.kind === 'undefined') throw new Error(result.reason)
        const items = rows[0]!.length
        const spread = rows[0]!.reduce((sum, _, j) => sum + mean(column(rows, j)) * (1 - mean(column(rows, j))), 0)
        expect(result.value).toBeCloseTo((items / (items - 1)) * (1 - spread / variance), 9)
        expect(result.value).toBeLessThanOrEqual(1)
        expect(result.interval.low <= result.value && result.value <= result.interval.high).toBe(true)
      }),
    )
  })

  test('item–rest correlation', () => {
    fc.assert(
      fc.property(matrix, (rows) => {
        rows[0]!.forEach((_, j) => {
          const [own, rest] = [column(rows, j), total(rows, j)]
          const spread = covariance(own, own) * covariance(rest, rest)
          const result = itemRestCorrelation(sums(rows), j)
          if (spread < 1e-12) {
            expect(result.kind).toBe('undefined')
            return
          }
          if (result.kind === 'undefined') throw new Error(result.reason)
          expect(result.value).toBeCloseTo(covariance(own, rest) / Math.sqrt(spread), 9)
          if (result.interval)
            expect(result.interval.low < result.value && result.value < result.interval.high).toBe(true)
        })
      }),
    )
  })

  test('KR-20 without an item is KR-20 of the matrix without its column', () => {
    fc.assert(
      fc.property(matrix, (rows) => {
        itemAnalysis(each(rows), 0).items.forEach(({ ifDeleted }, j) => {
          expect(ifDeleted).toEqual(kuderRichardson(sums(rows.map((row) => row.filter((_, i) => i !== j)))))
        })
      }),
      { numRuns: 30 },
    )
  })
})

const each = (rows: readonly (readonly number[])[]) => rows.map((marks) => ({ marks, count: 1 }))

describe('the change of KR-20 without an item', () => {
  const kr20 = (rows: readonly (readonly number[])[]) => {
    const judged = kuderRichardson(sums(rows))
    return judged.kind === 'reliability' ? judged.value : null
  }
  const without = (rows: readonly (readonly number[])[], item: number) =>
    rows.map((row) => row.filter((_, i) => i !== item))

  test('has the jackknife’s interval, row by row by definition', () => {
    fc.assert(
      fc.property(matrix, (rows) => {
        const change = (some: readonly (readonly number[])[], item: number) => {
          const [whole, others] = [kr20(some), kr20(without(some, item))]
          return whole === null || others === null ? null : others - whole
        }
        for (const [item, analysed] of itemAnalysis(each(rows), 0).items.entries()) {
          const left = rows.map((_, i) =>
            change(
              rows.filter((_, j) => j !== i),
              item,
            ),
          )
          const whole = change(rows, item)
          if (whole === null || left.includes(null)) {
            expect(analysed.change).toBeNull()
            continue
          }
          const values = left as number[]
          const mean = values.reduce((sum, one) => sum + one, 0) / rows.length
          const squares = values.reduce((sum, one) => sum + (one - mean) ** 2, 0)
          const reach = 1.959963984540054 * Math.sqrt(((rows.length - 1) / rows.length) * squares)
          expect(analysed.change!.value).toBeCloseTo(whole, 9)
          expect(analysed.change!.interval.low).toBeCloseTo(whole - reach, 9)
          expect(analysed.remarks.includes('reliability-rises-without')).toBe(analysed.change!.interval.low > 0)
        }
      }),
      { numRuns: 30 },
    )
  })
})

test('a tally of patterns, the rows one by one and any order of them give the same', () => {
  fc.assert(
    fc.property(matrix, (rows) => {
      const byPattern = new Map<string, { marks: number[]; count: number }>()
      for (const marks of rows) {
        const known = byPattern.get(marks.join(''))
        byPattern.set(marks.join(''), { marks, count: (known?.count ?? 0) + 1 })
      }
      expect(responseSums([...byPattern.values()])).toEqual(sums(rows))
      expect(sums([...rows].reverse())).toEqual(sums(rows))
    }),
  )
})

test('items that all say the same are perfectly reliable', () => {
  const rows = [
    [1, 1, 1],
    [0, 0, 0],
    [1, 1, 1],
    [0, 0, 0],
    [0, 0, 0],
  ]
  expect(kuderRichardson(sums(rows))).toMatchObject({ value: 1, interval: { low: 1, high: 1 } })
  expect(itemRestCorrelation(sums(rows), 0)).toMatchObject({ value: 1, interval: null })
})

test('a pattern of another length, a mark that is none and a count that is none are refused', () => {
  expect(() =>
    responseSums([
      { marks: [1, 0], count: 1 },
      { marks: [1], count: 1 },
    ]),
  ).toThrow(/marks/)
  expect(() => responseSums([{ marks: [1, Number.NaN], count: 1 }])).toThrow(/0 or 1/)
  expect(() => responseSums([{ marks: [1, 0], count: -1 }])).toThrow(/count/)
  expect(() => itemAnalysis(each([[1, 0]]), -1)).toThrow(/leftOut/)
})

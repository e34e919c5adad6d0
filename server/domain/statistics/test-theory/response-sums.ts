import { requireCount } from '../numeric/require-count.ts'

/** The marks of one sheet on every item (1 GO, 0 NO-GO), and how many sheets have exactly these. */
export type ResponsePattern = { marks: readonly number[]; count: number }
/**
 * All that item analysis needs of a complete 0/1 matrix: the number of sheets, for each pair of items how many passed
 * both (`together[i][i]`: passed item i). Whole numbers, so that variances are exact.
 */
export type ResponseSums = { sheets: number; together: readonly (readonly number[])[] }

/**
 * Adds up a complete 0/1 matrix, given row by row (count 1) or as a tally of patterns.
 * In: patterns of one length. Out: the sums. Throws a RangeError for a mark that is not 0 or 1 and for patterns of
 * different lengths: an item analysis of sheets with gaps would compare different tests.
 */
export function responseSums(patterns: readonly ResponsePattern[]): ResponseSums {
  const items = patterns[0]?.marks.length ?? 0
  const together = Array.from({ length: items }, () => new Array<number>(items).fill(0))
  let sheets = 0
  for (const { marks, count } of patterns) {
    requireCount(count, 'responseSums: count')
    if (marks.length !== items) throw new RangeError(`responseSums: ${marks.length} marks beside ${items}`)
    if (marks.some((mark) => mark !== 0 && mark !== 1)) throw new RangeError('responseSums: a mark must be 0 or 1')
    sheets += count
    for (let i = 0; i < items; i++)
      for (let j = 0; j < items; j++) if (marks[i] === 1 && marks[j] === 1) together[i]![j]! += count
  }
  return { sheets, together }
}

import { requireCount } from '../numeric/require-count.ts'

/** Tables as likely as the observed one but for rounding count as equally likely. */
const TIE = 1 + 1e-7

/**
 * Fisher's exact test of a 2×2 table, two-sided: with both margins held, the probability of all tables that are no
 * likelier than the one seen.
 *
 * The first cell is hypergeometric; its weights are built outward from the likeliest value by their ratios and
 * divided by their sum, so there is no factorial to overflow.
 * Source: R. A. Fisher (1935), *The Design of Experiments*, ch. 2; the two-sided rule as in A. Agresti (1992),
 * *Statistical Science* 7:131–153.
 * In: the four counts, row by row. Out: p, 1 where a margin is empty; 0 stands for less than about 1e-300. Exact at
 * any size, so failures may be few; it errs on the side of "not shown".
 * Example: 3, 1, 1, 3 gives 34/70.
 */
export function fisherExactTest(a: number, b: number, c: number, d: number): number {
  for (const cell of [a, b, c, d]) requireCount(cell, 'fisherExactTest: a cell')
  const [row, column, n] = [a + b, a + c, a + b + c + d]
  const [least, most] = [Math.max(0, row + column - n), Math.min(row, column)]
  const mode = Math.min(most, Math.max(least, Math.floor(((row + 1) * (column + 1)) / (n + 2))))
  const up = (x: number) => ((row - x) * (column - x)) / ((x + 1) * (n - row - column + x + 1))
  const weights = new Array<number>(most - least + 1).fill(1)
  for (let x = mode; x < most; x++) weights[x + 1 - least] = weights[x - least]! * up(x)
  for (let x = mode; x > least; x--) weights[x - 1 - least] = weights[x - least]! / up(x - 1)
  const seen = weights[a - least]! * TIE
  let total = 0
  let asRare = 0
  for (const weight of weights) {
    total += weight
    if (weight <= seen) asRare += weight
  }
  return Math.min(1, asRare / total)
}

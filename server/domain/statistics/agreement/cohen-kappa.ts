import { requireCount } from '../numeric/require-count.ts'
import { twoSidedQuantile } from '../numeric/two-sided-quantile.ts'
import type { Agreement } from './agreement.ts'
import { agreementBand } from './agreement-band.ts'
import { agreementInterval } from './agreement-interval.ts'

/**
 * Cohen's kappa of two graders: (pₒ − pₑ)/(1 − pₑ), pₒ the share of sheets on which they agree, pₑ the agreement that
 * their own shares of each category would give by chance.
 *
 * Source: J. Cohen (1960), *Educ. Psychol. Meas.* 20:37–46; standard errors (large sample, and under chance
 * agreement) of J. L. Fleiss, J. Cohen & B. S. Everitt (1969), *Psychol. Bull.* 72:323–327. Normal interval.
 * In: a square table of counts, rows the first grader, columns the second, categories in one order. Out: undefined,
 * not 1 or NaN, when both always used one and the same category (pₑ = 1). With lopsided shares kappa can be low
 * though the graders nearly always agree; Gwet's AC1 beside it shows that.
 * Example: [[20, 5], [10, 15]] gives 0.4.
 */
export function cohenKappa(table: readonly (readonly number[])[], level = 0.95): Agreement {
  const z = twoSidedQuantile(level)
  for (const row of table) {
    if (row.length !== table.length) throw new RangeError('cohenKappa: the table must be square')
    for (const cell of row) requireCount(cell, 'cohenKappa: a count')
  }
  const rowSums = table.map((row) => sum(row))
  const columnSums = table.map((_, j) => sum(table.map((row) => row[j]!)))
  const n = sum(rowSums)
  if (n === 0) return { kind: 'undefined', reason: 'no-data' }
  if (rowSums.some((size, i) => size === n && columnSums[i] === n)) return { kind: 'undefined', reason: 'one-category' }

  const rows = rowSums.map((size) => size / n)
  const columns = columnSums.map((size) => size / n)
  const observed = sum(table.map((row, i) => row[i]!)) / n
  const byChance = sum(rows.map((share, i) => share * columns[i]!))
  const value = (observed - byChance) / (1 - byChance)
  const scale = n * (1 - byChance) ** 2

  const cells = table.flatMap((row, i) =>
    row.map((count, j) => {
      const weight = i === j ? 1 - (rows[i]! + columns[i]!) * (1 - value) : (1 - value) * (columns[i]! + rows[j]!)
      return (count / n) * weight ** 2
    }),
  )
  const variance = (sum(cells) - (value - byChance * (1 - value)) ** 2) / scale
  const standardError = Math.sqrt(Math.max(0, variance))
  const products = sum(rows.map((share, i) => share * columns[i]! * (share + columns[i]!)))
  const errorIfChance = Math.sqrt(Math.max(0, byChance + byChance ** 2 - products) / scale)
  const interval = agreementInterval(value, standardError, z)
  const band = agreementBand(value)
  return {
    kind: 'agreement',
    value,
    observed,
    byChance,
    subjects: n,
    standardError,
    errorIfChance,
    interval,
    level,
    band,
  }
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

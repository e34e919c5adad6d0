import { toMillionths } from '../../scoring/decimal.ts'
import { requireCount } from '../numeric/require-count.ts'
import { judgeRate, type RateJudgement } from '../proportions/judge-rate.ts'
import { type Band, bandInMillionths, type ReadingCount, sideOf } from './band.ts'

export type BandShares = { readings: number; low: RateJudgement; within: RateJudgement; high: RateJudgement }

/**
 * The shares of readings below, inside and above the closed band of their gauge, each with its interval.
 *
 * In: counts by value, values as decimal text (6, 6.0 and 6.00 are one value), the band. Out: three rates that add up
 * to 1, "no-data" without readings.
 * Example: band 30 to 40, readings 29.9, 30.0, 40, 40.01: ¼ low, ½ within, ¼ high.
 */
export function bandShares(readings: readonly ReadingCount[], band: Band, level = 0.95): BandShares {
  const limits = bandInMillionths(band)
  const counts = { low: 0, within: 0, high: 0 }
  for (const { value, count } of readings) {
    requireCount(count, `bandShares: count of ${value}`)
    counts[sideOf(toMillionths(value), limits)] += count
  }
  const n = counts.low + counts.within + counts.high
  const share = (count: number) => judgeRate({ count, n }, level)
  return { readings: n, low: share(counts.low), within: share(counts.within), high: share(counts.high) }
}

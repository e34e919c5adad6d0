import { requireCount } from '../numeric/require-count.ts'
import type { Share } from '../proportions/share.ts'

/** Attempts of one kind (key: arm, standard, attempt number): passes of attempts of one person and of the unit. */
export type Stratum = { key: string; own: Share; unit: Share }
export type ExpectedPasses = {
  probabilities: number[]
  passes: number
  attempts: number
  expected: number
  leftOut: { key: string; attempts: number; passes: number }[]
}

/**
 * How many of a sponsor's (or grader's) attempts would have been passed at the unit's own rates for attempts like
 * these: the sum over strata of own attempts × unit rate (indirect standardisation).
 *
 * Source: P. Armitage, G. Berry & J. N. S. Matthews (2002), *Statistical Methods in Medical Research*, 4th ed., 19.3.
 * The unit's rate includes the person's own attempts, so a true difference is understated a little, never overstated.
 * Strata in which nobody else has an attempt have nothing to compare with: they are left out and listed.
 * In: strata; own counts must be part of the unit's. Out: `probabilities`, one for each comparable attempt (for the
 * exact tail), `passes`, `attempts` and `expected` of these, and what was left out.
 * Example: 10 first attempts where the unit passes 60 % and 5 retests where it passes 80 %: 10 expected of 15.
 */
export function expectedPasses(strata: readonly Stratum[]): ExpectedPasses {
  const result: ExpectedPasses = { probabilities: [], passes: 0, attempts: 0, expected: 0, leftOut: [] }
  for (const { key, own, unit } of strata) {
    requireCount(own.n, `expectedPasses, ${key}: own attempts`, unit.n)
    requireCount(own.count, `expectedPasses, ${key}: own passes`, Math.min(own.n, unit.count))
    requireCount(unit.count - own.count, `expectedPasses, ${key}: passes of the others`, unit.n - own.n)
    if (own.n === 0) continue
    if (unit.n === own.n) {
      result.leftOut.push({ key, attempts: own.n, passes: own.count })
      continue
    }
    const rate = unit.count / unit.n
    for (let i = 0; i < own.n; i++) result.probabilities.push(rate)
    result.passes += own.count
    result.attempts += own.n
    result.expected += own.n * rate
  }
  return result
}

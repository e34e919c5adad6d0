import { poissonBinomial } from './poisson-binomial.ts'

/**
 * The probability of at least k successes in independent trials whose probabilities differ, such as at least 11 GO of
 * 13 measures: the exact distribution (see `poissonBinomial`) summed from k on, or 1 less the rest where that is
 * smaller.
 * In: probabilities, a whole k. Out: 1 for k ≤ 0, 0 for k above the number of trials.
 * Example: probabilityAtLeast([0.1, 0.2, 0.2], 2) = 0.072.
 */
export function probabilityAtLeast(probabilities: readonly number[], k: number): number {
  if (!Number.isSafeInteger(k)) throw new RangeError(`probabilityAtLeast: k must be a whole number, not ${k}`)
  const distribution = poissonBinomial(probabilities)
  const from = Math.max(0, k)
  const below = distribution.slice(0, from).reduce((sum, p) => sum + p, 0)
  const above = distribution.slice(from).reduceRight((sum, p) => sum + p, 0)
  return below < above ? Math.max(0, 1 - below) : above
}

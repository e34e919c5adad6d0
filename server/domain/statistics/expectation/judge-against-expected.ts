import type { Interval } from '../interval.ts'
import { requireCount } from '../numeric/require-count.ts'
import { FEW_ATTEMPTS } from '../proportions/few-attempts.ts'
import { poissonBinomial } from './poisson-binomial.ts'

export type AgainstExpected =
  | { kind: 'no-data' }
  | {
      kind: 'judged'
      attempts: number
      observed: number
      expected: number
      ratio: number | null
      usual: Interval
      side: 'above' | 'below' | 'on'
      chance: number
      verdict: 'within' | 'differs'
      differsAt: 0.95 | 0.998 | null
      few: boolean
    }

/**
 * Observed passes against those expected at the unit's rates, for a sponsor's candidates or a grader's leniency.
 *
 * With independent attempts of differing probability the number of passes is Poisson-binomial. `chance` is the exact
 * probability of a count as far out on its side as the observed one or farther; "differs" at 95 % when it is at most
 * 2.5 %, at 99.8 % when at most 0.1 %. `usual` are the counts that would not differ at 95 %.
 * In: observed passes, one probability for each attempt (see `expectedPasses`). Out: `ratio` = observed/expected (1:
 * as expected; null when nothing was expected); "no-data" without attempts; `few` under 5 attempts.
 * Example: 9 observed of 10 at 0.6: expected 6, ratio 1.5, chance 0.0464, within.
 */
export function judgeAgainstExpected(observed: number, probabilities: readonly number[]): AgainstExpected {
  const attempts = probabilities.length
  requireCount(observed, 'judgeAgainstExpected: observed', attempts)
  if (attempts === 0) return { kind: 'no-data' }
  const expected = probabilities.reduce((sum, p) => sum + p, 0)
  const distribution = poissonBinomial(probabilities)
  const atMost = tails(distribution)
  const atLeast = tails(distribution.toReversed()).reverse()
  const distance = observed - expected
  const side = Math.abs(distance) < 1e-9 * attempts ? 'on' : distance > 0 ? 'above' : 'below'
  const chance = (side === 'above' ? atLeast : atMost)[observed]!
  const differsAt = chance <= 0.001 ? 0.998 : chance <= 0.025 ? 0.95 : null
  return {
    kind: 'judged',
    attempts,
    observed,
    expected,
    ratio: expected === 0 ? null : observed / expected,
    usual: { low: atMost.findIndex((p) => p > 0.025), high: atLeast.findLastIndex((p) => p > 0.025) },
    side,
    chance,
    verdict: differsAt === null ? 'within' : 'differs',
    differsAt,
    few: attempts < FEW_ATTEMPTS,
  }
}

/** Running sums from the front, at most 1. */
function tails(distribution: readonly number[]): number[] {
  let sum = 0
  return distribution.map((p) => {
    sum = Math.min(1, sum + p)
    return sum
  })
}

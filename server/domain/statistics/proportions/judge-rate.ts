import type { Interval } from '../interval.ts'
import { exactInterval } from './exact-interval.ts'
import { FEW_ATTEMPTS } from './few-attempts.ts'
import type { Share } from './share.ts'
import { wilsonInterval } from './wilson-interval.ts'

export type RateJudgement =
  | { kind: 'no-data' }
  | {
      kind: 'rate'
      count: number
      n: number
      rate: number
      wilson: Interval
      exact: Interval
      level: number
      few: boolean
    }

/**
 * A rate as it is shown: the count it comes from, Wilson's interval and the exact one beside it, and whether it rests
 * on so few attempts (under 5) that it must be labelled.
 *
 * In: k of n, the level. Out: "no-data" at n = 0. The attempts are taken as independent; trials of one measure by one
 * soldier are not, so give sheets or soldiers here, not trials.
 * Example: 4 NO-GO of 20 tested.
 */
export function judgeRate(share: Share, level = 0.95): RateJudgement {
  const wilson = wilsonInterval(share, level)
  const exact = exactInterval(share, level)
  if (wilson.kind === 'no-data' || exact.kind === 'no-data') return { kind: 'no-data' }
  const { count, n } = share
  return {
    kind: 'rate',
    count,
    n,
    rate: wilson.rate,
    wilson: { low: wilson.low, high: wilson.high },
    exact: { low: exact.low, high: exact.high },
    level,
    few: n < FEW_ATTEMPTS,
  }
}

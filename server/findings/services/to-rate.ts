import type { Rate } from '../../contract/findings/rate.ts'
import { judgeRate, type RateJudgement } from '../../domain/statistics/proportions/judge-rate.ts'
import type { Share } from '../../domain/statistics/proportions/share.ts'

/** A judged rate in the wire format. */
export function toRate(judged: RateJudgement): Rate {
  if (judged.kind === 'no-data') return { count: 0, n: 0, rate: null, interval: null, exact: null, few: true }
  const { count, n, rate, wilson, exact, few } = judged
  return { count, n, rate, interval: wilson, exact, few }
}

/** `count` of `n` in the wire format. */
export const rateOf = (share: Share): Rate => toRate(judgeRate(share))

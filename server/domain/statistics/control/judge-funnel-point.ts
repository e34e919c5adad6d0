import { binomialCumulative } from '../numeric/binomial-cumulative.ts'
import { requireCount } from '../numeric/require-count.ts'
import { requireProbability } from '../numeric/require-probability.ts'
import { judgeRate, type RateJudgement } from '../proportions/judge-rate.ts'
import { FUNNEL_TAILS, type FunnelLimits, funnelLimits } from './funnel-limits.ts'

export type FunnelPoint =
  | { kind: 'no-data' }
  | { kind: 'no-spread'; target: number; rate: Extract<RateJudgement, { kind: 'rate' }> }
  | ({
      kind: 'judged'
      target: number
      rate: Extract<RateJudgement, { kind: 'rate' }>
      side: 'above' | 'below' | 'on'
      chance: number
      verdict: 'within' | 'at-limit' | 'differs'
      differsAt: 0.95 | 0.998 | null
    } & FunnelLimits)

/**
 * One sponsor's (or grader's) rate against the funnel around a target rate.
 *
 * "differs" only where the point lies outside the 95 % limits and the exact binomial probability, at the target, of a
 * count as far out or farther (`chance`, one side) is at most 2.5 %; `differsAt` is 0.998 where it also lies outside
 * those limits with at most 0.1 %. "at-limit": past the drawn line, but chance alone does so more often than that.
 * The drawn limits are interpolated between counts, so that the upper one can lie below a count that is not rare: at
 * a target of 0.8, 10 of 10 lies above the line, and comes about by chance in 10.7 % of cases (B. N. Manktelow & S.
 * E. Seaton 2012, *PLOS ONE* 7:e45723, on what each interpolation does to false alarms). With this gate a false
 * "differs" has at most 2.5 % on each side, at any size. Of many sponsors some differ at 95 % by chance; 99.8 % is
 * the mark for a closer look.
 * In: passes of attempts, the target. Out: "no-data" without attempts; "no-spread" at a target of 0 or 1, where no
 * limits exist; `rate.few` labels fewer than 5 attempts.
 */
export function judgeFunnelPoint(passes: number, attempts: number, target: number): FunnelPoint {
  requireCount(attempts, 'judgeFunnelPoint: attempts')
  requireCount(passes, 'judgeFunnelPoint: passes', attempts)
  requireProbability(target, 'judgeFunnelPoint: target')
  const rate = judgeRate({ count: passes, n: attempts })
  if (rate.kind === 'no-data') return rate
  if (target === 0 || target === 1) return { kind: 'no-spread', target, rate }
  const limits = funnelLimits(target, attempts)
  const side = rate.rate > target ? 'above' : rate.rate < target ? 'below' : 'on'
  const chance =
    side === 'above'
      ? binomialCumulative(attempts - passes, attempts, 1 - target)
      : binomialCumulative(passes, attempts, target)
  const outside = ({ low, high }: { low: number; high: number }) => rate.rate < low || rate.rate > high
  const differs = (key: keyof FunnelLimits) => outside(limits[key]) && chance <= FUNNEL_TAILS[key]
  const verdict = differs('limits95') ? 'differs' : outside(limits.limits95) ? 'at-limit' : 'within'
  const differsAt = verdict !== 'differs' ? null : differs('limits998') ? 0.998 : 0.95
  return { kind: 'judged', target, rate, side, chance, verdict, differsAt, ...limits }
}

import type { Interval } from '../interval.ts'
import { interpolatedBinomialLimit } from './interpolated-binomial-limit.ts'

export type FunnelLimits = { limits95: Interval; limits998: Interval }

/** What lies outside the two pairs of limits on one side: 2.5 % and 0.1 %. */
export const FUNNEL_TAILS = { limits95: 0.025, limits998: 0.001 } as const

/**
 * The two pairs of limits of a funnel plot at one number of attempts: 95 % (2.5 % on each side) and 99.8 % (0.1 %).
 *
 * In: the rate everybody is held against, strictly between 0 and 1, and the attempts, from 1. Out: exact binomial
 * limits, interpolated (see `interpolatedBinomialLimit`), as rates. Whether a point outside them differs is said by
 * `judgeFunnelPoint`.
 * Example: target 0.8, 13 attempts: 0.5216 to 0.9650 and 0.3671 to 0.9986.
 */
export function funnelLimits(target: number, attempts: number): FunnelLimits {
  const at = (tail: number) => ({
    low: interpolatedBinomialLimit(target, attempts, tail),
    high: interpolatedBinomialLimit(target, attempts, 1 - tail),
  })
  return { limits95: at(FUNNEL_TAILS.limits95), limits998: at(FUNNEL_TAILS.limits998) }
}

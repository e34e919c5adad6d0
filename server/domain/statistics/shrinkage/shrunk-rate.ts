import { betaQuantile } from '../numeric/beta-quantile.ts'
import { requireCount } from '../numeric/require-count.ts'
import { requireLevel } from '../numeric/require-level.ts'
import { FEW_ATTEMPTS } from '../proportions/few-attempts.ts'
import type { Share } from '../proportions/share.ts'
import type { BetaBinomialFit } from './fit-beta-binomial.ts'

export type ShrunkRate =
  | { kind: 'no-data' }
  | { kind: 'not-estimated'; reason: Exclude<BetaBinomialFit['kind'], 'fitted' | 'no-over-dispersion'> }
  | { kind: 'pooled'; rate: number; few: boolean }
  | { kind: 'shrunk'; rate: number; low: number; high: number; level: number; ownWeight: number; few: boolean }

/**
 * A group's rate drawn toward the rate of all groups, the more the fewer its attempts (empirical-Bayes estimate).
 *
 * The rate given the group's passes k of n is Beta(α + k, β + n − k): its mean (α + k)/(α + β + n), and its
 * equal-tailed interval. `ownWeight` = n/(α + β + n) is how far the group's own record counts.
 * Source: A. Gelman et al. (2013), *Bayesian Data Analysis*, 3rd ed., 5.1; B. Efron & C. Morris (1975), *JASA*
 * 70:311–319.
 * In: the group's passes of attempts, the fit of all groups. Out: "no-data" without attempts; "pooled" where groups
 * differ no more than chance (then everyone's best estimate is the common rate, without an interval of their own);
 * "not-estimated" with the reason. α and β are taken as known, so with few groups the interval is somewhat too
 * narrow.
 * Example: 4 of 14 with α = 1.4, β = 8.6 gives 5.4/24 = 0.225.
 */
export function shrunkRate(fit: BetaBinomialFit, { count, n }: Share, level = 0.95): ShrunkRate {
  requireCount(n, 'shrunkRate: n')
  requireCount(count, 'shrunkRate: count', n)
  requireLevel(level)
  if (n === 0) return { kind: 'no-data' }
  const few = n < FEW_ATTEMPTS
  if (fit.kind === 'no-over-dispersion') return { kind: 'pooled', rate: fit.rate, few }
  if (fit.kind !== 'fitted') return { kind: 'not-estimated', reason: fit.kind }
  const [alpha, beta] = [fit.alpha + count, fit.beta + n - count]
  const tail = (1 - level) / 2
  return {
    kind: 'shrunk',
    rate: alpha / (alpha + beta),
    low: betaQuantile(tail, alpha, beta),
    high: 1 - betaQuantile(tail, beta, alpha),
    level,
    ownWeight: n / (alpha + beta),
    few,
  }
}

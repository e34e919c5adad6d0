import { findRoot } from '../numeric/find-root.ts'
import { requireCount } from '../numeric/require-count.ts'
import type { Share } from '../proportions/share.ts'
import { type BetaBinomialLikelihood, betaBinomialLikelihood } from './beta-binomial-likelihood.ts'

export type BetaBinomialFit =
  | { kind: 'no-data' }
  | {
      kind: 'one-group' | 'all-passed' | 'none-passed' | 'single-attempts' | 'all-or-nothing'
      groups: number
      rate: number
    }
  | { kind: 'no-over-dispersion'; groups: number; rate: number; logLikelihood: number }
  | {
      kind: 'fitted'
      groups: number
      rate: number
      alpha: number
      beta: number
      logLikelihood: number
      uncertainty: FitUncertainty | null
    }

/** Variances and covariance of the estimated rate and of the logarithm of the spread 1/(α + β). */
export type FitUncertainty = { rate: number; both: number; logSpread: number }

/** Spreads 1/(α + β) looked at: from 1e-8 in quarter decades, and on for as long as the likelihood still rises. */
const FIRST_SPREAD = 1e-8
const STEP = 10 ** 0.25
const LAST_SPREAD = 1e4

/**
 * The beta distribution of group rates that makes the groups' passes most likely (empirical Bayes).
 *
 * Each group has a rate of its own from Beta(α, β) and, given it, binomial passes. For a fixed spread the likelihood
 * is concave in the mean, which is found by root search; along the spread every fall of the profile's derivative
 * through zero is found, and the best of these and of "no spread" is taken. So there is no start value and no failure
 * to converge.
 * In: passes of attempts by group; groups without attempts are ignored. Out: "fitted" with α, β and `rate` = α/(α +
 * β), or what stands against it:
 * - "no-data"; "one-group": nobody to compare with; "all-passed", "none-passed": no variation at all
 * - "single-attempts": no group has two attempts, so spread between groups cannot be seen
 * - "all-or-nothing": every group passed all or none, and the likelihood grows without end as α and β go to 0
 * - "no-over-dispersion": the groups differ no more than chance makes them; `rate` is the pooled rate
 *
 * `uncertainty` is the inverse of the observed information; null where the likelihood is too flat to have one.
 * Example: the 70 historical groups of rat tumours (Tarone 1982) give α = 2.3048, β = 14.0798.
 */
export function fitBetaBinomial(shares: readonly Share[]): BetaBinomialFit {
  for (const { count, n } of shares) {
    requireCount(n, 'fitBetaBinomial: n')
    requireCount(count, 'fitBetaBinomial: count', n)
  }
  const used = shares.filter(({ n }) => n > 0)
  const attempts = used.reduce((sum, { n }) => sum + n, 0)
  const passes = used.reduce((sum, { count }) => sum + count, 0)
  if (attempts === 0) return { kind: 'no-data' }
  const pooled = { groups: used.length, rate: passes / attempts }
  if (used.length === 1) return { kind: 'one-group', ...pooled }
  if (passes === attempts) return { kind: 'all-passed', ...pooled }
  if (passes === 0) return { kind: 'none-passed', ...pooled }
  if (used.every(({ n }) => n === 1)) return { kind: 'single-attempts', ...pooled }
  if (used.every(({ count, n }) => count === 0 || count === n)) return { kind: 'all-or-nothing', ...pooled }

  const likelihood = betaBinomialLikelihood(used)
  const flat = { spread: 0, mean: pooled.rate, logLikelihood: likelihood.logLikelihood(pooled.rate, 0) }
  const best = peaks(likelihood).reduce((x, y) => (y.logLikelihood > x.logLikelihood ? y : x), flat)
  const { spread, mean, logLikelihood } = best
  if (spread === 0) return { kind: 'no-over-dispersion', ...pooled, logLikelihood }
  return {
    kind: 'fitted',
    groups: used.length,
    rate: mean,
    alpha: mean / spread,
    beta: (1 - mean) / spread,
    logLikelihood,
    uncertainty: uncertaintyAt(likelihood, mean, spread),
  }
}

function uncertaintyAt(likelihood: BetaBinomialLikelihood, mean: number, spread: number): FitUncertainty | null {
  const information = likelihood.information(mean, spread)
  const [ofRate, ofBoth, ofLogSpread] = [information.mean, information.both * spread, information.spread * spread ** 2]
  const determinant = ofRate * ofLogSpread - ofBoth ** 2
  if (!(ofRate > 0 && determinant > 0)) return null
  return { rate: ofLogSpread / determinant, both: -ofBoth / determinant, logSpread: ofRate / determinant }
}

type Peak = { spread: number; mean: number; logLikelihood: number }

/** The local maxima of the profile likelihood at a spread above 0. */
function peaks(likelihood: BetaBinomialLikelihood): Peak[] {
  const bestMean = (spread: number) => findRoot((mean) => likelihood.meanScore(mean, spread), 1e-15, 1 - 1e-15)
  const slope = (spread: number) => likelihood.spreadScore(bestMean(spread), spread)
  const found: Peak[] = []
  let from = 0
  let rising = slope(0) > 0
  for (let to = FIRST_SPREAD; to <= LAST_SPREAD || rising; to *= STEP) {
    const stillRising = slope(to) > 0
    if (rising && !stillRising) {
      const spread = findRoot(slope, from, to)
      const mean = bestMean(spread)
      found.push({ spread, mean, logLikelihood: likelihood.logLikelihood(mean, spread) })
    }
    ;[from, rising] = [to, stillRising]
  }
  return found
}

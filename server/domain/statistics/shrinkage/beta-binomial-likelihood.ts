import { logGamma } from '../numeric/log-gamma.ts'
import type { Share } from '../proportions/share.ts'

export type BetaBinomialLikelihood = {
  /** Log-likelihood at mean m and spread t, binomial coefficients included. */
  logLikelihood(mean: number, spread: number): number
  /** Its derivative by the mean: falls as the mean grows. */
  meanScore(mean: number, spread: number): number
  /** Its derivative by the spread. */
  spreadScore(mean: number, spread: number): number
  /** Its negative second derivatives, by mean, by both, and by spread. */
  information(mean: number, spread: number): { mean: number; both: number; spread: number }
}

/**
 * The log-likelihood of a beta-binomial model for groups with y of n, in mean m = α/(α + β) and spread t = 1/(α + β).
 *
 * Σ over groups of ln C(n, y) + Σ_{i<y} ln(m + i t) + Σ_{i<n−y} ln(1 − m + i t) − Σ_{i<n} ln(1 + i t). Groups enter
 * by how many of them exceed i, so the work depends on the largest group, not on how many there are; at t = 0 it is
 * the binomial one, so "no spread beyond chance" is an ordinary point of it.
 * Source: D. M. Smith (1983), "Algorithm AS 189: maximum likelihood estimation of the parameters of the beta binomial
 * distribution", *Applied Statistics* 32:196–204 (the form; the search is in `fitBetaBinomial`).
 */
export function betaBinomialLikelihood(groups: readonly Share[]): BetaBinomialLikelihood {
  const passes = exceedances(groups.map(({ count }) => count))
  const failures = exceedances(groups.map(({ count, n }) => n - count))
  const attempts = exceedances(groups.map(({ n }) => n))
  const constant = groups.reduce((sum, { count, n }) => sum + logChoose(n, count), 0)
  return {
    logLikelihood: (mean, spread) =>
      constant +
      total(passes, (i) => Math.log(mean + i * spread)) +
      total(failures, (i) => Math.log(1 - mean + i * spread)) -
      total(attempts, (i) => Math.log1p(i * spread)),
    meanScore: (mean, spread) =>
      total(passes, (i) => 1 / (mean + i * spread)) - total(failures, (i) => 1 / (1 - mean + i * spread)),
    spreadScore: (mean, spread) =>
      total(passes, (i) => i / (mean + i * spread)) +
      total(failures, (i) => i / (1 - mean + i * spread)) -
      total(attempts, (i) => i / (1 + i * spread)),
    information: (mean, spread) => {
      const ofPass = (i: number) => (mean + i * spread) ** -2
      const ofFailure = (i: number) => (1 - mean + i * spread) ** -2
      return {
        mean: total(passes, ofPass) + total(failures, ofFailure),
        both: total(passes, (i) => i * ofPass(i)) - total(failures, (i) => i * ofFailure(i)),
        spread:
          total(passes, (i) => i * i * ofPass(i)) +
          total(failures, (i) => i * i * ofFailure(i)) -
          total(attempts, (i) => (i / (1 + i * spread)) ** 2),
      }
    },
  }
}

/** At i: how many of the counts exceed i. */
function exceedances(counts: readonly number[]): number[] {
  const howMany = new Array<number>(counts.reduce((most, count) => Math.max(most, count), 0)).fill(0)
  for (const count of counts) if (count > 0) howMany[count - 1]! += 1
  for (let i = howMany.length - 2; i >= 0; i--) howMany[i]! += howMany[i + 1]!
  return howMany
}

function total(weights: readonly number[], term: (i: number) => number): number {
  return weights.reduce((sum, weight, i) => sum + weight * term(i), 0)
}

function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1)
}

import { requireProbability } from '../numeric/require-probability.ts'

/**
 * The probabilities of 0, 1, …, n successes in n independent trials whose probabilities differ.
 *
 * Exactly, trial by trial: P(k of the first m) = P(k of m − 1)(1 − pₘ) + P(k − 1 of m − 1) pₘ. Only positive numbers
 * are added, so no digits are lost.
 * Source: Y. Hong (2013), *Comput. Stat. Data Anal.* 59:41–51 (the recursion of Barlow & Heidtmann 1984).
 * In: probabilities, each in [0, 1]. Out: n + 1 numbers that add up to 1; [1] for no trial.
 * Example: [0.1, 0.2, 0.2] gives 0.576, 0.352, 0.068, 0.004.
 */
export function poissonBinomial(probabilities: readonly number[]): number[] {
  const distribution = new Array<number>(probabilities.length + 1).fill(0)
  distribution[0] = 1
  probabilities.forEach((p, trial) => {
    requireProbability(p, 'poissonBinomial: p')
    for (let k = trial + 1; k > 0; k--) distribution[k] = distribution[k]! * (1 - p) + distribution[k - 1]! * p
    distribution[0]! *= 1 - p
  })
  return distribution
}

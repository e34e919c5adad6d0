import { binomialCumulative } from '../numeric/binomial-cumulative.ts'
import { requireCount } from '../numeric/require-count.ts'
import { requireProbability } from '../numeric/require-probability.ts'

/**
 * The probability that a measure is GO: at least `needed` correct of `trials` independent trials, each correct with
 * probability p. For 2 of 3: p² (3 − 2p). That trials stop once the measure is decided does not change it.
 * In: p in [0, 1], whole numbers 1 ≤ needed ≤ trials.
 * Example: goProbability(0.7, 3, 2) = 0.784.
 */
export function goProbability(p: number, trials: number, needed: number): number {
  requireProbability(p, 'goProbability: p')
  requireCount(trials, 'goProbability: trials')
  requireCount(needed, 'goProbability: needed', trials)
  if (needed === 0) return 1
  return binomialCumulative(trials - needed, trials, 1 - p)
}

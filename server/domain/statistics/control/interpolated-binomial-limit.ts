import { binomialCumulative } from '../numeric/binomial-cumulative.ts'
import { binomialDensity } from '../numeric/binomial-density.ts'
import { requireCount } from '../numeric/require-count.ts'
import { requireProbability } from '../numeric/require-probability.ts'

/**
 * The rate that a binomial share of `size` attempts falls below with probability `tail`, interpolated between counts
 * so that funnel limits are smooth.
 *
 * With F and f the binomial distribution and density at the target rate, r the least count with F(r) ≥ tail and a =
 * (F(r) − tail)/f(r): (r − a)/size, kept in [0, 1].
 * Source: D. J. Spiegelhalter (2005), "Funnel plots for comparing institutional performance", *Stat. Med.*
 * 24:1185–1202, appendix.
 * In: target and tail strictly between 0 and 1, size from 1.
 * Example: target 0.8, size 10, tail 0.025 gives 0.470506.
 */
export function interpolatedBinomialLimit(target: number, size: number, tail: number): number {
  requireCount(size, 'interpolatedBinomialLimit: size')
  requireProbability(target, 'interpolatedBinomialLimit: target')
  requireProbability(tail, 'interpolatedBinomialLimit: tail')
  if (size === 0) throw new RangeError('interpolatedBinomialLimit: size must be at least 1')
  let [below, r] = [-1, size]
  while (r - below > 1) {
    const middle = Math.floor((below + r) / 2)
    if (binomialCumulative(middle, size, target) >= tail) r = middle
    else below = middle
  }
  const excess = (binomialCumulative(r, size, target) - tail) / binomialDensity(r, size, target)
  return Math.min(1, Math.max(0, (r - excess) / size))
}

import { binomialCumulative } from '../numeric/binomial-cumulative.ts'
import { requireCount } from '../numeric/require-count.ts'

/**
 * The sign test: how likely it is that of `more + fewer` cases as many or more lie on one side if either is as likely.
 *
 * Two-sided and exact, twice the binomial tail, at most 1; ties are left out beforehand.
 * Source: W. J. Conover (1999), *Practical Nonparametric Statistics*, 3rd ed., 3.4.
 * Example: 8 to 1 gives 2 · 10/512 = 0.0391; 0 to 0 gives 1.
 */
export function signTest(more: number, fewer: number): number {
  requireCount(more, 'signTest: more')
  requireCount(fewer, 'signTest: fewer')
  return Math.min(1, 2 * binomialCumulative(Math.min(more, fewer), more + fewer, 0.5))
}

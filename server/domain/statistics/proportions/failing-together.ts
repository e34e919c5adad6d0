import { compareText } from '../compare-text.ts'
import { benjaminiHochberg } from './benjamini-hochberg.ts'
import { fisherExactTest } from './fisher-exact-test.ts'
import { type PairCounts, type Phi, phiCoefficient } from './phi-coefficient.ts'

export type MeasurePair = { first: string; second: string; counts: PairCounts }
export type JudgedMeasurePair<Pair extends MeasurePair = MeasurePair> = Pair & { n: number } & (
    | { verdict: 'undefined'; reason: Extract<Phi, { kind: 'undefined' }>['reason'] }
    | { verdict: 'together' | 'apart' | 'not-shown'; phi: number; p: number; adjustedP: number }
  )

/**
 * Which measures fail together: phi of every pair, Fisher's exact p, and the p-values of all pairs adjusted together.
 *
 * Fisher's test and not chi-square: failures are few, and chi-square is an approximation for expected counts of 5 and
 * more. "together" or "apart" only at an adjusted p of at most `falseShare` [0.05] (Benjamini–Hochberg); otherwise
 * "not-shown". Pairs whose phi is undefined are reported so and are no part of the family.
 * In: for each pair the counts among sheets that decided both; what else is known of it is passed on. Out: the clearest first (by p, then by |phi|, then by
 * name), undefined pairs last. Sheets of one soldier are taken as independent.
 */
export function failingTogether<Pair extends MeasurePair>(
  pairs: readonly Pair[],
  falseShare = 0.05,
): JudgedMeasurePair<Pair>[] {
  const defined: (Pair & { n: number; phi: number; p: number })[] = []
  const undefinedPairs: JudgedMeasurePair<Pair>[] = []
  for (const pair of pairs) {
    const { both, firstOnly, secondOnly, neither } = pair.counts
    const n = both + firstOnly + secondOnly + neither
    const phi = phiCoefficient(pair.counts)
    if (phi.kind === 'undefined') undefinedPairs.push({ ...pair, n, verdict: 'undefined', reason: phi.reason })
    else defined.push({ ...pair, n, phi: phi.value, p: fisherExactTest(both, firstOnly, secondOnly, neither) })
  }
  const adjusted = benjaminiHochberg(defined.map(({ p }) => p))
  const judged = defined.map((pair, i) => {
    const adjustedP = adjusted[i]!
    const direction = pair.phi > 0 ? ('together' as const) : ('apart' as const)
    return { ...pair, adjustedP, verdict: adjustedP <= falseShare ? direction : ('not-shown' as const) }
  })
  judged.sort((x, y) => x.p - y.p || Math.abs(y.phi) - Math.abs(x.phi) || byName(x, y))
  return [...judged, ...undefinedPairs.sort(byName)]
}

function byName(x: MeasurePair, y: MeasurePair): number {
  return compareText(x.first, y.first) || compareText(x.second, y.second)
}

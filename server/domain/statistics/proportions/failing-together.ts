import { mantelHaenszel, type Stratum } from '../association/mantel-haenszel.ts'
import { compareText } from '../compare-text.ts'
import { benjaminiHochberg } from './benjamini-hochberg.ts'
import { type PairCounts, phiCoefficient } from './phi-coefficient.ts'

/** Two measures: their counts among all sheets that decided both, and the same by strata of ability. */
export type MeasurePair = { first: string; second: string; counts: PairCounts; strata: readonly Stratum[] }
export type JudgedMeasurePair<Pair extends MeasurePair = MeasurePair> = Pair & { n: number } & (
    | { verdict: 'undefined'; reason: 'no-data' | 'one-never-varies' | 'too-few' }
    | { verdict: 'together' | 'apart' | 'not-shown'; expected: number; phi: number; p: number; adjustedP: number }
  )

/**
 * Which measures fail together beyond what ability makes of it: for every pair the Mantel–Haenszel test over strata of the
 * others' score (`pairStrata`), the p-values of all pairs adjusted together.
 *
 * "together" or "apart" only at an adjusted p of at most `falseShare` [0.05] (Benjamini–Hochberg); otherwise "not-shown".
 * Pairs that were failed too rarely for the test to hold are reported so and are no part of the family.
 * In: pairs; what else is known of one is passed on. Out: the clearest first (by p, then by |phi|, then by name), undefined
 * pairs last. `expected` is of both NO-GO, on all sheets that decided both: those of such ability at large.
 */
export function failingTogether<Pair extends MeasurePair>(
  pairs: readonly Pair[],
  falseShare = 0.05,
): JudgedMeasurePair<Pair>[] {
  const defined: (Pair & { n: number; expected: number; phi: number; p: number })[] = []
  const undefinedPairs: JudgedMeasurePair<Pair>[] = []
  for (const pair of pairs) {
    const { both, firstOnly, secondOnly, neither } = pair.counts
    const n = both + firstOnly + secondOnly + neither
    const raw = phiCoefficient(pair.counts)
    const found = mantelHaenszel(pair.strata)
    if (raw.kind === 'undefined') undefinedPairs.push({ ...pair, n, verdict: 'undefined', reason: raw.reason })
    else if (found.kind === 'undefined' || !found.isEnough)
      undefinedPairs.push({ ...pair, n, verdict: 'undefined', reason: 'too-few' })
    else {
      const expected = Math.max(0, both - (found.observed - found.expected))
      defined.push({ ...pair, n, expected, phi: found.phi, p: found.p })
    }
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

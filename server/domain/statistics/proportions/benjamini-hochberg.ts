import { requireProbability } from '../numeric/require-probability.ts'

/**
 * P-values adjusted so that, of those called at q, at most a share q are expected to be false.
 *
 * The i-th smallest of m becomes the least of m pⱼ / j over j ≥ i, at most 1.
 * Source: Y. Benjamini & Y. Hochberg (1995), *J. R. Stat. Soc. B* 57:289–300. Holds for independent tests and for
 * positively dependent ones.
 * In: p-values in any order. Out: adjusted ones in the same order; empty for none.
 * Example: [0.01, 0.04, 0.03] gives [0.03, 0.04, 0.04].
 */
export function benjaminiHochberg(pValues: readonly number[]): number[] {
  for (const p of pValues) requireProbability(p, 'benjaminiHochberg: p')
  const fromLargest = pValues.map((p, index) => ({ p, index })).sort((x, y) => y.p - x.p)
  const adjusted = new Array<number>(pValues.length)
  let least = 1
  fromLargest.forEach(({ p, index }, place) => {
    least = Math.min(least, (p * pValues.length) / (pValues.length - place))
    adjusted[index] = least
  })
  return adjusted
}

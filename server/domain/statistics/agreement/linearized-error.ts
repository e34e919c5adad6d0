import type { RatingTally } from './rating-tally.ts'

/**
 * The standard error of a coefficient (pₐ − pₑ)/(1 − pₑ) over sheets taken as a random sample.
 *
 * Each sheet i has a value of its own: (n/n₂)(aᵢ − pₑ)/(1 − pₑ) where it has two ratings, else 0, less 2 (1 − κ)(eᵢ −
 * pₑ)/(1 − pₑ), with aᵢ its agreement, n₂ the sheets with two ratings and eᵢ its part in the chance agreement; the
 * variance is Σ (valueᵢ − κ)² / (n (n − 1)). It supposes neither independence of graders nor chance agreement.
 * Source: K. L. Gwet (2008), *Br. J. Math. Stat. Psychol.* 61:29–48.
 * In: the tally, κ, pₑ, eᵢ from a sheet's category shares. Out: null for a single sheet.
 */
export function linearizedError(
  { sheets, paired, kinds }: RatingTally,
  value: number,
  byChance: number,
  chancePart: (shares: readonly number[]) => number,
): number | null {
  if (sheets < 2) return null
  const squares = kinds.reduce((sum, { sheets: size, agreement, shares }) => {
    const own = agreement === null ? 0 : ((sheets / paired) * (agreement - byChance)) / (1 - byChance)
    const correction = (2 * (1 - value) * (chancePart(shares) - byChance)) / (1 - byChance)
    return sum + size * (own - correction - value) ** 2
  }, 0)
  return Math.sqrt(squares / (sheets * (sheets - 1)))
}

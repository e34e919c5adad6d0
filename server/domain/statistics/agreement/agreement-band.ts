export type AgreementBand = 'poor' | 'slight' | 'fair' | 'moderate' | 'substantial' | 'almost-perfect'

const UPPER_EDGES = [
  [0.2, 'slight'],
  [0.4, 'fair'],
  [0.6, 'moderate'],
  [0.8, 'substantial'],
  [1, 'almost-perfect'],
] as const

/**
 * A word for a coefficient of agreement, after J. R. Landis & G. G. Koch (1977), *Biometrics* 33:159–174: below 0 poor,
 * to 0.20 slight, to 0.40 fair, to 0.60 moderate, to 0.80 substantial, to 1 almost perfect.
 *
 * The published bands (0.21 to 0.40, 0.41 to 0.60 …) leave gaps; the rule here: an upper edge belongs to its band and
 * what is above it to the next, so 0.4 is fair and 0.405 moderate, after rounding to ten decimals, so that a 0.4
 * computed in binary is still 0.4. The words are a habit of the field, not a test: show the interval beside them. In:
 * a value up to 1; with sheets of a single rating a coefficient can fall below −1.
 */
export function agreementBand(value: number): AgreementBand {
  if (!(value <= 1 + 1e-10)) throw new RangeError(`agreementBand: at most 1, not ${value}`)
  const rounded = Math.round(value * 1e10) / 1e10
  if (rounded < 0) return 'poor'
  return UPPER_EDGES.find(([edge]) => rounded <= edge)?.[1] ?? 'almost-perfect'
}

import { chiSquareUpperTail } from '../numeric/chi-square-upper-tail.ts'
import { twoSidedQuantile } from '../numeric/two-sided-quantile.ts'

/** A two-by-two table of one stratum: row by row [a, b; c, d]. */
export interface Stratum {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly d: number
  /** By how much a is expected above what the margins give, because those in the stratum are not all alike; left out: 0. */
  readonly excess?: number
}

export type Association =
  | { readonly kind: 'undefined' }
  | {
      readonly kind: 'association'
      /** Sum of a, and what is expected of it where nothing but the strata ties rows to columns. */
      readonly observed: number
      readonly expected: number
      /** Mantel and Haenszel's common odds ratio with its interval; null: not finite, or 0. The excess is not in it. */
      readonly oddsRatio: number | null
      readonly interval: { readonly low: number; readonly high: number } | null
      /** One degree of freedom; `corrected` for continuity. */
      readonly chiSquare: number
      readonly corrected: number
      readonly p: number
      /** How far rows and columns go together within strata, −1 to 1: the surplus of a over the product of deviations. */
      readonly phi: number
      /** Whether so much was expected on both sides that the p-value can be relied on. */
      readonly isEnough: boolean
    }

/** Mantel and Fleiss ask for at least so much between the expected sum and either extreme. */
const ENOUGH = 5

/**
 * Whether rows and columns go together once strata are held fixed.
 *
 * χ² = (Σ a − Σ E)² / Σ V with E = (a+b)(a+c)/n (and the excess), V = (a+b)(c+d)(a+c)(b+d)/(n²(n−1)); common odds ratio
 * Σ(ad/n) / Σ(bc/n) with the interval of Robins, Breslow and Greenland.
 * Source: N. Mantel & W. Haenszel (1959), *J. Natl Cancer Inst.* 22:719–748; J. Robins, N. Breslow & S. Greenland (1986),
 * *Biometrics* 42:311–323; when the p-value holds: N. Mantel & J. L. Fleiss (1980), *Am. J. Epidemiol.* 112:129–134.
 * In: strata; those of fewer than two or without variation say nothing. Out: undefined where none says anything.
 */
export function mantelHaenszel(strata: readonly Stratum[], level = 0.95): Association {
  let [observed, expected, variance, deviations, least, most] = [0, 0, 0, 0, 0, 0]
  let [ad, bc, pr, both, qs] = [0, 0, 0, 0, 0]
  for (const { a, b, c, d, excess = 0 } of strata) {
    const n = a + b + c + d
    const product = (a + b) * (c + d) * (a + c) * (b + d)
    if (n < 2 || product === 0) continue
    observed += a
    expected += ((a + b) * (a + c)) / n + excess
    variance += product / (n * n * (n - 1))
    deviations += Math.sqrt(product) / n
    least += Math.max(0, a - d)
    most += Math.min(a + b, a + c)
    const [p, q, r, s] = [(a + d) / n, (b + c) / n, (a * d) / n, (b * c) / n]
    ad += r
    bc += s
    pr += p * r
    both += p * s + q * r
    qs += q * s
  }
  if (variance === 0) return { kind: 'undefined' }
  const surplus = observed - expected
  const chiSquare = surplus ** 2 / variance
  const corrected = Math.max(0, Math.abs(surplus) - 0.5) ** 2 / variance
  const hasRatio = ad > 0 && bc > 0
  const error = Math.sqrt(pr / (2 * ad * ad) + both / (2 * ad * bc) + qs / (2 * bc * bc))
  const reach = twoSidedQuantile(level) * error
  return {
    kind: 'association',
    observed,
    expected,
    oddsRatio: hasRatio ? ad / bc : null,
    interval: hasRatio ? { low: (ad / bc) * Math.exp(-reach), high: (ad / bc) * Math.exp(reach) } : null,
    chiSquare,
    corrected,
    p: chiSquareUpperTail(chiSquare, 1),
    phi: Math.max(-1, Math.min(1, surplus / deviations)),
    isEnough: Math.min(expected - least, most - expected) >= ENOUGH,
  }
}

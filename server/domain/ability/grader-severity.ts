import { normalCumulative } from '../statistics/numeric/normal-cumulative.ts'
import type { AbilityFit } from './fit-ability.ts'

/** How much harder a grader marks than the others, in logits of a trial; below 0: more leniently. */
export interface GraderSeverity {
  /** Drawn toward 0, the more the fewer sheets there are. */
  readonly severity: number
  readonly sd: number
  /** 95 %. */
  readonly low: number
  readonly high: number
  /** Two-sided, of the hypothesis that this grader marks like the average one. */
  readonly p: number
}

const Z = 1.959963984540054

/**
 * The severity of each grader once the candidates' ability, strengths and kinds of attempt are held fixed.
 *
 * The estimate is the mode given the data, its variance that of the joint normal approximation, so candidates that are known
 * no better than by this grader's own sheets widen it. The test takes the shrinking out again: with T the share of ω² that the
 * data leave, (estimate/ω)²/(T (1 − T)) is the squared Wald statistic of the grader's effect by itself.
 * Source: the modes and their variances, D. Bates et al. (2015), *J. Stat. Software* 67(1), 5.1; the rest is the normal
 * distribution's algebra (posterior precision = precision of the data + 1/ω²).
 * Out: by grader; null for who graded nothing.
 */
export function graderSeverities({ parameters, modes, graderVariances }: AbilityFit): (GraderSeverity | null)[] {
  const spread = parameters.spread.grader
  return Array.from(graderVariances, (left, grader) => {
    if (!(left < 1 - 1e-9)) return null
    const severity = -spread * modes.grader[grader]!
    const sd = spread * Math.sqrt(left)
    const z = modes.grader[grader]! / Math.sqrt(left * (1 - left))
    return { severity, sd, low: severity - Z * sd, high: severity + Z * sd, p: 2 * normalCumulative(-Math.abs(z)) }
  })
}

/** What one fit says of a grader: the estimate drawn toward 0, its variance, and the spread between graders it was drawn by. */
export interface SeverityPart {
  readonly severity: number
  readonly variance: number
  readonly spread: number
}

/**
 * A grader's severity over several standards, each fitted by itself, as if it were one and the same in all.
 *
 * Each part's shrinking is taken out (precision of the data = 1/variance − 1/spread²), the estimates by themselves are weighted by
 * their precision, and the mean is drawn toward 0 again by the parts' mean squared spread. With one part it is that part.
 * Source: inverse-variance weighting, J. Hartung, G. Knapp & B. K. Sinha (2008), *Statistical Meta-Analysis*, 4.1.
 * Out: null where no part says anything.
 */
export function combineSeverities(parts: readonly SeverityPart[]): GraderSeverity | null {
  let [precision, weighted, square] = [0, 0, 0]
  for (const { severity, variance, spread } of parts) {
    const ofData = 1 / variance - 1 / spread ** 2
    if (!(ofData * spread ** 2 > 1e-9)) continue
    precision += ofData
    weighted += severity / variance
    square += ofData * spread ** 2
  }
  if (precision === 0) return null
  const sd = 1 / Math.sqrt(precision + precision / square)
  const severity = weighted * sd ** 2
  const z = weighted / Math.sqrt(precision)
  return { severity, sd, low: severity - Z * sd, high: severity + Z * sd, p: 2 * normalCumulative(-Math.abs(z)) }
}

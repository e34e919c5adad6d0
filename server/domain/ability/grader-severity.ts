import { normalCumulative } from '../statistics/numeric/normal-cumulative.ts'

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

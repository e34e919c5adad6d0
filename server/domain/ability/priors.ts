import type { Spread } from './parameters.ts'

/** What is believed of the parameters before any sheet was seen; null: nothing, as for comparison with other programs. */
export interface Priors {
  /** Normal: of every measure's ease, and of every gain. */
  readonly ease: { readonly mean: number; readonly sd: number }
  readonly gain: { readonly sd: number }
  /** Gamma of shape 2, by its peak: of each spread. */
  readonly spreadPeak: Spread
}

/**
 * Weakly informative priors. They keep the estimates finite where sheets say little, as when nobody ever failed a measure,
 * and are outweighed by a few dozen sheets.
 *
 * - Ease: a normal distribution around a trial that goes right in 4 of 5 cases, so wide that 19 in 20 measures lie between 1 in 6
 *   and 99 in 100. A standard is passed with four fifths of its measures, so its trials have to go right about so often.
 * - Gains: whatever a retest brings over a first test, 19 times in 20 it is less than 1 logit either way.
 * - Spreads: gamma of shape 2, which is 0 at "no spread" and falls only slowly beyond its peak, so that a finding of "no
 *   difference at all" cannot come out of few data. Form and source: Y. Chung et al. (2013), *Psychometrika* 78:685–709. The
 *   peaks are our judgement, not published: candidates differ most, measures within a candidate less, days and graders least.
 */
export const WEAK_PRIORS: Priors = {
  ease: { mean: 1.4, sd: 1.5 },
  gain: { sd: 0.5 },
  spreadPeak: { candidate: 0.7, measure: 0.5, sheet: 0.3, grader: 0.25 },
}

/**
 * Below so many sheets with marks the spreads stay at the peaks of their priors and the gains at 0, and every answer says
 * that they do. Twenty candidates tested twice are the fewest that tell a day's form from ability at all.
 */
export const FEWEST_SHEETS = 40

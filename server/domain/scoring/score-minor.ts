import { effectiveTrials } from './effective-trials.ts'
import type { Gauge, MarkedMinor, MinorScore, ScoredStandard } from './types.ts'

/**
 * One minor measure: GO with at least `needed` correct trials, NO-GO once that is out of reach
 * (more incorrect than `trials` − `needed`), otherwise undecided (outcome null).
 */
export function scoreMinor(
  minor: MarkedMinor,
  rule: ScoredStandard['rule'],
  gauges: ReadonlyMap<string, Gauge>,
): MinorScore & { readonly outcome: 'GO' | 'NO-GO' | null } {
  const { marks, faults } = effectiveTrials(minor, gauges)
  const correct = marks.filter((mark) => mark === 'correct').length
  const incorrect = marks.filter((mark) => mark === 'incorrect').length
  const outcome = correct >= rule.needed ? 'GO' : incorrect > rule.trials - rule.needed ? 'NO-GO' : null
  return { code: minor.code, outcome, correct, incorrect, faults }
}

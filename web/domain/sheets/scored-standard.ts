import type { Standard } from '#contract/standards/standards.ts'
import type { ScoredStandard } from '#scoring/types.ts'

/** A standard as scoring looks at it; where no order of calls is given, each measure is called its trials running. */
export const scoredStandard = (standard: Standard): ScoredStandard => {
  const { rule, majors, minors, gauges, calls } = standard
  const running = minors.flatMap(({ code }) =>
    Array.from({ length: rule.trials }, (_, index) => ({ measure: code, trial: index + 1 })),
  )
  return {
    rule: { ...rule, percent: String(rule.percent) },
    majors,
    minors,
    gauges,
    calls: calls.length > 0 ? calls : running,
  }
}

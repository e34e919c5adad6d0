import type { StandardVersion } from '../../db/catalogue.db.ts'
import type { ScoredStandard } from '../../domain/scoring/types.ts'

/** The part of a stored version that scoring looks at. */
export function scoredStandard({ definition }: StandardVersion): ScoredStandard {
  return { ...definition, rule: { ...definition.rule, percent: String(definition.rule.percent) } }
}

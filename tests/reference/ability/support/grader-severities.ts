import type { AbilityFit } from '../../../../server/domain/ability/fit-ability.ts'
import { combineSeverities, type GraderSeverity } from '../../../../server/domain/ability/grader-severity.ts'

/** The severity of each grader of one fit, as the findings make it of all their fits; null for who graded nothing. */
export function graderSeverities({ parameters, modes, graderVariances }: AbilityFit): (GraderSeverity | null)[] {
  const spread = parameters.spread.grader
  return Array.from(graderVariances, (left, grader) =>
    combineSeverities([{ severity: -spread * modes.grader[grader]!, variance: spread ** 2 * left, spread }]),
  )
}

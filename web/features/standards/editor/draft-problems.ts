import '../../../api/no-run-time-code.ts'
import { StandardBody } from '#contract/standards/standards.ts'
import { checkDefinition } from '#standards/check-definition.ts'

/** One thing that keeps a draft from being saved and published, and where: a JSON pointer into it. */
export interface DraftProblem {
  readonly pointer: string
  readonly detail: string
}

/** What the server would refuse in a draft, found by the very schema and rules by which it does. */
export function draftProblems(draft: StandardBody): DraftProblem[] {
  const shape = StandardBody.safeParse(draft)
  const issues = shape.success ? [] : shape.error.issues
  const ofShape = issues.map(({ path, message }) => ({
    pointer: path.map((step) => `/${String(step)}`).join(''),
    detail: message,
  }))
  return [...ofShape, ...checkDefinition(draft)]
}

/** The first thing wrong at a place or, with `under`, at any place within it. */
export const problemAt = (problems: readonly DraftProblem[], pointer: string, under = false): string | null =>
  problems.find((one) => one.pointer === pointer || (under && one.pointer.startsWith(`${pointer}/`)))?.detail ?? null

/** The conditions of a valid test, in the order in which they are reported; true: the office may waive it. */
export const VALIDITY_RULES = {
  'grader-is-candidate': false,
  'sponsor-is-candidate': false,
  'grader-coached': false,
  'grader-not-qualified': true,
  'no-sponsor': true,
  'not-the-sponsor': true,
  'sponsor-not-certified': true,
  conditions: true,
  'too-early': true,
  'review-missing': true,
  'out-of-sequence': true,
  'standard-not-in-force': true,
  'arm-not-allowed': true,
  'void-after-failure': true,
  'clock-skew': true,
} as const

export type ValidityRule = keyof typeof VALIDITY_RULES

/** A condition that a sheet breaks, with a sentence that says how. */
export interface Violation {
  readonly rule: ValidityRule
  readonly waivable: boolean
  readonly detail: string
}

const NEVER = ['grader-is-candidate', 'sponsor-is-candidate', 'grader-coached'] as const
const ABOUT_THE_GRADER = ['grader-is-candidate', 'grader-coached', 'grader-not-qualified'] as const

/**
 * The conditions that a sheet is held to. Practice sheets to none; outcome-only records to the different people; a
 * second grader's sheet to what concerns the grader; a void to what is never waived, to coming after a failure, and to
 * the clock; a sheet that is two of these to what both have in common.
 */
export function rulesFor(sheet: {
  readonly purpose: 'test' | 'practice'
  readonly outcomeOnly: boolean
  readonly isVoid: boolean
  readonly isSecond: boolean
}): readonly ValidityRule[] {
  if (sheet.purpose === 'practice') return []
  let rules = Object.keys(VALIDITY_RULES) as ValidityRule[]
  const keep = (allowed: readonly ValidityRule[]) => {
    rules = rules.filter((rule) => allowed.includes(rule))
  }
  if (sheet.outcomeOnly) keep(['grader-is-candidate', 'sponsor-is-candidate'])
  if (sheet.isSecond) keep(ABOUT_THE_GRADER)
  if (sheet.isVoid) keep([...NEVER, 'void-after-failure', 'clock-skew'])
  return rules
}

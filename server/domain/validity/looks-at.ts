import type { SheetFacts } from './judge-sheet.ts'
import type { ValidityRule } from './rules.ts'

/** What of a sheet an amendment may change and conditions of a valid test look at. */
export type LookedAt = Pick<
  SheetFacts,
  'sponsorId' | 'graderId' | 'arm' | 'day' | 'finishedAt' | 'isVoid' | 'voidAfterFailure' | 'conditionsMet'
> & { readonly version: number }

/** The instant of its end says on which day a sheet lies, and what lies before it. */
const LOOKS_AT: Record<ValidityRule, readonly (keyof LookedAt)[]> = {
  'grader-is-candidate': ['graderId'],
  'sponsor-is-candidate': ['sponsorId'],
  'grader-coached': ['graderId', 'sponsorId', 'day', 'finishedAt'],
  'grader-not-qualified': ['graderId', 'day', 'finishedAt'],
  'no-sponsor': ['sponsorId'],
  'not-the-sponsor': ['sponsorId', 'day'],
  'sponsor-not-certified': ['sponsorId', 'day', 'finishedAt'],
  conditions: ['conditionsMet'],
  'too-early': ['day', 'finishedAt'],
  'review-missing': ['day', 'finishedAt'],
  'out-of-sequence': ['day', 'finishedAt'],
  'standard-not-in-force': ['version', 'day'],
  'arm-not-allowed': ['arm', 'version', 'day'],
  'void-after-failure': ['isVoid', 'voidAfterFailure'],
  'clock-skew': ['finishedAt'],
}

/** Whether an amendment leaves everything of a sheet as it was that this condition looks at. */
export const isUntouched = (rule: string, before: LookedAt, after: LookedAt): boolean =>
  rule in LOOKS_AT && LOOKS_AT[rule as ValidityRule].every((fact) => before[fact] === after[fact])

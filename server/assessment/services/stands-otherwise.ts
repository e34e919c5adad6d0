import { isDeepStrictEqual } from 'node:util'
import type { CertificationAssessment } from '../../domain/assessment/types.ts'

type Standing = Pick<CertificationAssessment, 'statuses' | 'retests' | 'earned'>

/** Whether two assessments differ in what certifies or bars somebody on any day: awards made by tests, and open retests. */
export function awardedOtherwise(before: Standing, after: Standing): boolean {
  // The hour of a test is not part of the award it makes.
  const awards = ({ earned }: Standing) => earned.map(({ finishedAt: _, ...award }) => award)
  return !isDeepStrictEqual(awards(before), awards(after)) || !isDeepStrictEqual(before.retests, after.retests)
}

/** Whether a soldier stands otherwise in a certification on any day: by status, award or retest. */
export function standsOtherwise(before: Standing, after: Standing): boolean {
  return !isDeepStrictEqual(before.statuses, after.statuses) || awardedOtherwise(before, after)
}

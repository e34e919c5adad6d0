import type { StudySheet } from '#contract/coaching/study.ts'

/** A study sheet as it was last downloaded by an account. */
export interface KeptStudy {
  readonly accountId: string
  readonly standard: string
  /** '' without one. */
  readonly candidateId: string
  readonly sheet: StudySheet
  /** By the device's clock. */
  readonly fetchedAt: string
}

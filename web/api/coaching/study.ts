import type { StudySheet } from '#contract/coaching/study.ts'
import { get } from '../client.ts'

/** The study sheet of a standard, with a candidate's own faults where one is named. */
export const fetchStudy = (standard: string, candidateId: string) =>
  get<typeof StudySheet>(`/study/${standard}`, { candidateId })

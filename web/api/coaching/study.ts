import * as endpoints from '#contract/coaching/endpoints.ts'
import { call } from '../client.ts'

/** The study sheet of a standard, with a candidate's own faults where one is named. */
export const fetchStudy = (standard: string, candidateId: string) =>
  call(endpoints.getStudySheet, { params: { standard }, query: { candidateId } })

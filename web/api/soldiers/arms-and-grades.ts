import { queryOptions } from '@tanstack/react-query'
import type { ArmsAndGradesBody } from '#contract/arms-and-grades/arms-and-grades.ts'
import * as armsAndGradesEndpoints from '#contract/arms-and-grades/endpoints.ts'
import { call } from '../client.ts'

/** The grades and arms of the unit. */
export const listsQuery = queryOptions({
  queryKey: ['arms-and-grades'],
  staleTime: 60_000,
  queryFn: () => call(armsAndGradesEndpoints.getArmsAndGrades),
})

/** How many have each today. */
export const listsUseQuery = queryOptions({
  queryKey: ['arms-and-grades', 'use'],
  queryFn: () => call(armsAndGradesEndpoints.getArmsAndGradesUse),
})

export const saveLists = (body: ArmsAndGradesBody) => call(armsAndGradesEndpoints.saveArmsAndGrades, { body })

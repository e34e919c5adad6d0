import { queryOptions } from '@tanstack/react-query'
import type { ArmsAndGrades, ArmsAndGradesBody, ArmsAndGradesUse } from '#contract/arms-and-grades/arms-and-grades.ts'
import { get, send } from '../client.ts'

/** The grades and arms of the unit. */
export const listsQuery = queryOptions({
  queryKey: ['arms-and-grades'],
  staleTime: 60_000,
  queryFn: () => get<typeof ArmsAndGrades>('/arms-and-grades'),
})

/** How many have each today. */
export const listsUseQuery = queryOptions({
  queryKey: ['arms-and-grades', 'use'],
  queryFn: () => get<typeof ArmsAndGradesUse>('/arms-and-grades/use'),
})

export const saveLists = (body: ArmsAndGradesBody) => send<typeof ArmsAndGrades>('PUT', '/arms-and-grades', body)

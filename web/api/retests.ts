import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { RetestPage } from '#contract/certifications.ts'
import { allPages } from './all-pages.ts'

export interface RetestFilters {
  asOf?: string
  unitId?: string
  soldierId?: string
}

/** Every open retest of a unit and all below it. */
export const retestsQuery = (filters: RetestFilters = {}) =>
  queryOptions({
    queryKey: ['retests', filters],
    queryFn: () => allPages<typeof RetestPage>('/retests', { ...filters }),
    placeholderData: keepPreviousData,
  })

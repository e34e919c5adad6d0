import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/readiness/endpoints.ts'
import { call } from '../client.ts'

interface Filters {
  unitId?: string | undefined
  certification?: string | undefined
}

/** How many of those required were certified at the end of each of the last eighteen months, and today. */
export const readinessTrendQuery = (filters: Filters) =>
  queryOptions({
    queryKey: ['readiness', 'trend', filters],
    queryFn: () => call(endpoints.getReadinessTrend, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** Who lapses within three months unless they renew, page after page. */
export const lapsesQuery = (filters: Filters, limit = 12) =>
  infiniteQueryOptions({
    queryKey: ['readiness', 'lapses', filters, limit],
    queryFn: ({ pageParam }) => call(endpoints.listLapses, { query: { ...filters, limit, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

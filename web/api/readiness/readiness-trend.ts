import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { LapsePage, ReadinessTrend } from '#contract/readiness/readiness.ts'
import { get } from '../client.ts'

interface Filters {
  unitId?: string | undefined
  certification?: string | undefined
}

/** How many of those required were certified at the end of each of the last eighteen months, and today. */
export const readinessTrendQuery = (filters: Filters) =>
  queryOptions({
    queryKey: ['readiness', 'trend', filters],
    queryFn: () => get<typeof ReadinessTrend>('/readiness/trend', { ...filters }),
    placeholderData: keepPreviousData,
  })

/** Who lapses within three months unless they renew, page after page. */
export const lapsesQuery = (filters: Filters, limit = 12) =>
  infiniteQueryOptions({
    queryKey: ['readiness', 'lapses', filters, limit],
    queryFn: ({ pageParam }) => get<typeof LapsePage>('/readiness/lapses', { ...filters, limit, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

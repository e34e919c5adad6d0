import { infiniteQueryOptions, keepPreviousData } from '@tanstack/react-query'
import type { Readiness } from '#contract/standards/certifications.ts'
import { get } from '../client.ts'

export interface ReadinessFilters {
  asOf?: string
  unitId?: string
  certification?: string
  sort?: string
  standing?: 'can' | 'cannot'
}

/** Who can stand as of a day, page after page; the counts of the whole subtree come with every page. */
export const readinessQuery = (filters: ReadinessFilters, limit = 100) =>
  infiniteQueryOptions({
    queryKey: ['readiness', filters, limit],
    queryFn: ({ pageParam }) => get<typeof Readiness>('/readiness', { ...filters, limit, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

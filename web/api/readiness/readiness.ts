import { infiniteQueryOptions, keepPreviousData } from '@tanstack/react-query'
import * as endpoints from '#contract/readiness/endpoints.ts'
import { call } from '../client.ts'

export interface ReadinessFilters {
  asOf?: string | undefined
  unitId?: string | undefined
  certification?: string | undefined
  sort?: string
  standing?: 'can' | 'cannot'
}

/** Who can stand as of a day, page after page; counts come with the first one. */
export const readinessQuery = (filters: ReadinessFilters, limit = 100) =>
  infiniteQueryOptions({
    queryKey: ['readiness', filters, limit],
    queryFn: ({ pageParam }) =>
      call(endpoints.getReadiness, {
        query: { ...filters, limit, after: pageParam },
      }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

const UNITS = 24

/** The counts of the units after those that came with the first page (undefined: there are none); nothing before they are asked for. */
export const unitCountsQuery = (
  filters: Pick<ReadinessFilters, 'asOf' | 'unitId' | 'certification'>,
  after: string | undefined,
) =>
  infiniteQueryOptions({
    queryKey: ['readiness', 'units', filters, after],
    queryFn: ({ pageParam }) =>
      call(endpoints.listUnitCounts, { query: { ...filters, limit: UNITS, after: pageParam } }),
    initialPageParam: after,
    getNextPageParam: (page) => page.next ?? undefined,
    enabled: ({ state }) => state.data !== undefined,
  })

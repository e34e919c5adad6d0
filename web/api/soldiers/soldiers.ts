import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/soldiers/endpoints.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

const SUGGESTIONS = 8

/** Up to eight soldiers whose roster number or name begins as typed. */
export const soldierSearchQuery = (typed: string) =>
  queryOptions({
    queryKey: ['soldiers', 'search', typed],
    queryFn: () => call(endpoints.listSoldiers, { query: { q: typed, limit: SUGGESTIONS } }),
    enabled: typed !== '',
    placeholderData: keepPreviousData,
  })

/** The roster, of a unit with all below it or by what is typed, page after page. */
export const rosterQuery = (filters: { q?: string; unitId?: string }) =>
  infiniteQueryOptions({
    queryKey: ['soldiers', 'roster', filters],
    queryFn: ({ pageParam }) => call(endpoints.listSoldiers, { query: { ...filters, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const soldierQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id],
    queryFn: () => call(endpoints.getSoldier, { params: { id } }),
    enabled: id !== '',
  })

/** How the soldier stands in every certification that fits, as of a day (today without one). */
export const soldierStatusQuery = (id: string, asOf?: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'status', asOf],
    queryFn: () => everyPage(endpoints.getStatus, { params: { id }, query: { asOf } }),
    placeholderData: keepPreviousData,
  })

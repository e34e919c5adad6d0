import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { SoldierDetail, SoldierPage } from '#contract/soldiers/soldiers.ts'
import type { CertificationStatusPage } from '#contract/standards/certifications.ts'
import { allPages } from '../all-pages.ts'
import { get } from '../client.ts'

const SUGGESTIONS = 8

/** Up to eight soldiers whose roster number or name begins as typed. */
export const soldierSearchQuery = (typed: string) =>
  queryOptions({
    queryKey: ['soldiers', 'search', typed],
    queryFn: () => get<typeof SoldierPage>('/soldiers', { q: typed, limit: SUGGESTIONS }),
    enabled: typed !== '',
    placeholderData: keepPreviousData,
  })

/** The roster, of a unit with all below it or by what is typed, page after page. */
export const rosterQuery = (filters: { q?: string; unitId?: string }) =>
  infiniteQueryOptions({
    queryKey: ['soldiers', 'roster', filters],
    queryFn: ({ pageParam }) => get<typeof SoldierPage>('/soldiers', { ...filters, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const soldierQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id],
    queryFn: () => get<typeof SoldierDetail>(`/soldiers/${id}`),
    enabled: id !== '',
  })

/** How the soldier stands in every certification that fits, as of a day (today without one). */
export const soldierStatusQuery = (id: string, asOf?: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'status', asOf],
    queryFn: () => allPages<typeof CertificationStatusPage>(`/soldiers/${id}/status`, { asOf }),
    placeholderData: keepPreviousData,
  })

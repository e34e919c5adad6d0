import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type { Backlog, DueMoveBody, KeptGoPage } from '#contract/readiness/retests.ts'
import type { RetestPage } from '#contract/standards/certifications.ts'
import { allPages } from '../all-pages.ts'
import { get, send } from '../client.ts'

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

/** The size of the backlog at the end of each of the last eighteen months, and on the day itself. */
export const backlogQuery = (filters: { asOf?: string; unitId?: string } = {}) =>
  queryOptions({
    queryKey: ['retests', 'backlog', filters],
    queryFn: () => get<typeof Backlog>('/retests/backlog', { ...filters }),
    placeholderData: keepPreviousData,
  })

/** GOs that stop counting within thirty days. */
export const keptGosQuery = (filters: { asOf?: string; unitId?: string } = {}) =>
  queryOptions({
    queryKey: ['retests', 'kept', filters],
    queryFn: () => allPages<typeof KeptGoPage>('/kept-gos', { ...filters }),
    placeholderData: keepPreviousData,
  })

export const moveDueDay = (soldierId: string, body: DueMoveBody) =>
  send<typeof Created>('POST', `/soldiers/${soldierId}/due-days`, body)

export const addReview = (soldierId: string, body: { standard: string; on: string; note: string }) =>
  send<typeof Created>('POST', `/soldiers/${soldierId}/reviews`, body)

import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/readiness/endpoints.ts'
import type { DueMoveBody } from '#contract/readiness/retests.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

export interface RetestFilters {
  asOf?: string
  unitId?: string
  soldierId?: string
}

/** Every open retest of a unit and all below it. */
export const retestsQuery = (filters: RetestFilters = {}) =>
  queryOptions({
    queryKey: ['retests', filters],
    queryFn: () => everyPage(endpoints.listRetests, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** The size of the backlog at the end of each of the last eighteen months, and on the day itself. */
export const backlogQuery = (filters: { asOf?: string; unitId?: string } = {}) =>
  queryOptions({
    queryKey: ['retests', 'backlog', filters],
    queryFn: () => call(endpoints.getBacklog, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** GOs that stop counting within thirty days. */
export const keptGosQuery = (filters: { asOf?: string; unitId?: string } = {}) =>
  queryOptions({
    queryKey: ['retests', 'kept', filters],
    queryFn: () => everyPage(endpoints.listKeptGos, { query: filters }),
    placeholderData: keepPreviousData,
  })

export const moveDueDay = (soldierId: string, body: DueMoveBody) =>
  call(endpoints.moveDueDay, { params: { id: soldierId }, body })

export const addReview = (soldierId: string, body: { standard: string; on: string; note: string }) =>
  call(endpoints.addReview, { params: { id: soldierId }, body })

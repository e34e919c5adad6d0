import { infiniteQueryOptions, keepPreviousData, type QueryClient, queryOptions } from '@tanstack/react-query'
import * as readinessEndpoints from '#contract/readiness/endpoints.ts'
import type { AbsenceBody } from '#contract/soldiers/absences.ts'
import * as endpoints from '#contract/soldiers/endpoints.ts'
import type { ChangeCorrectionBody, NamesBody, SoldierBody, SoldierChangeBody } from '#contract/soldiers/soldiers.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

export interface PeopleFilters {
  asOf?: string | undefined
  unitId?: string | undefined
  grade?: string | undefined
  arm?: string | undefined
  strength?: string | undefined
  q?: string | undefined
}

/** The people of a day, page after page. */
export const peopleQuery = (filters: PeopleFilters) =>
  infiniteQueryOptions({
    queryKey: ['soldiers', 'people', filters],
    queryFn: ({ pageParam }) => call(endpoints.listSoldiers, { query: { ...filters, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

/** How many the pages of people hold together. */
export const peopleCountQuery = (filters: PeopleFilters) =>
  queryOptions({
    queryKey: ['soldiers', 'count', filters],
    queryFn: () => call(endpoints.countSoldiers, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** What was entered about a soldier's unit, grade, arms and strength. */
export const changesQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'changes'],
    queryFn: () => everyPage(endpoints.listChanges, { params: { id } }),
  })

export const absencesQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'absences'],
    queryFn: () => everyPage(endpoints.listAbsences, { params: { id } }),
  })

/** Entries of the soldier that were merged into this one. */
export const mergesQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'merges'],
    queryFn: () => everyPage(endpoints.listMerges, { query: { soldierId: id } }),
  })

/** What merging another entry into this one would do. */
export const mergePreviewQuery = (id: string, awayId: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'merge', awayId],
    queryFn: () => call(endpoints.previewMerge, { params: { id }, body: { awayId } }),
    staleTime: 0,
    retry: false,
  })

/** By unit and grade, how many must hold which certification on a day, and how many do. */
export const requirementsQuery = (filters: { asOf?: string | undefined; unitId?: string | undefined }) =>
  queryOptions({
    queryKey: ['requirements', filters],
    queryFn: () => everyPage(readinessEndpoints.listRequirements, { query: filters }),
    placeholderData: keepPreviousData,
  })

export const addSoldier = (body: SoldierBody) => call(endpoints.createSoldier, { body })

export const enterChange = (id: string, body: SoldierChangeBody) =>
  call(endpoints.changeSoldier, { params: { id }, body })

export const correctChange = (id: string, change: number, body: ChangeCorrectionBody) =>
  call(endpoints.correctChange, { params: { id, change }, body })

export const removeChange = (id: string, change: number, reason: string) =>
  call(endpoints.removeChange, { params: { id, change }, body: { reason } })

export const correctNames = (id: string, body: NamesBody) => call(endpoints.correctNames, { params: { id }, body })

export const addAbsence = (id: string, body: AbsenceBody) => call(endpoints.addAbsence, { params: { id }, body })

export const changeAbsence = (id: string, body: AbsenceBody) => call(endpoints.changeAbsence, { params: { id }, body })

export const removeAbsence = (id: string) => call(endpoints.removeAbsence, { params: { id } })

export const mergeSoldiers = (id: string, awayId: string, reason: string) =>
  call(endpoints.mergeSoldiers, { params: { id }, body: { awayId, reason } })

export const undoMerge = (id: string, reason: string) => call(endpoints.undoMerge, { params: { id }, body: { reason } })

/** Who stands how may be otherwise after any change to a soldier. */
export const invalidatePeople = (client: QueryClient) => client.invalidateQueries()

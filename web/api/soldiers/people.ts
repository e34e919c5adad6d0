import { infiniteQueryOptions, keepPreviousData, type QueryClient, queryOptions } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type { Requirements } from '#contract/readiness/requirements.ts'
import type { AbsenceBody, AbsencePage } from '#contract/soldiers/absences.ts'
import type { MergePage, MergePreview } from '#contract/soldiers/merges.ts'
import type {
  ChangeCorrectionBody,
  NamesBody,
  Soldier,
  SoldierBody,
  SoldierChangeBody,
  SoldierChangePage,
  SoldierCount,
  SoldierPage,
} from '#contract/soldiers/soldiers.ts'
import { allPages } from '../all-pages.ts'
import { get, remove, send } from '../client.ts'

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
    queryFn: ({ pageParam }) => get<typeof SoldierPage>('/soldiers', { ...filters, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

/** How many the pages of people hold together. */
export const peopleCountQuery = (filters: PeopleFilters) =>
  queryOptions({
    queryKey: ['soldiers', 'count', filters],
    queryFn: () => get<typeof SoldierCount>('/soldiers/count', { ...filters }),
    placeholderData: keepPreviousData,
  })

/** What was entered about a soldier's unit, grade, arms and strength. */
export const changesQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'changes'],
    queryFn: () => allPages<typeof SoldierChangePage>(`/soldiers/${id}/changes`),
  })

export const absencesQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'absences'],
    queryFn: () => allPages<typeof AbsencePage>(`/soldiers/${id}/absences`),
  })

/** Entries of the soldier that were merged into this one. */
export const mergesQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'merges'],
    queryFn: () => allPages<typeof MergePage>('/merges', { soldierId: id }),
  })

/** What merging another entry into this one would do. */
export const mergePreviewQuery = (id: string, awayId: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'merge', awayId],
    queryFn: () => send<typeof MergePreview>('POST', `/soldiers/${id}/merges/preview`, { awayId }),
    staleTime: 0,
    retry: false,
  })

/** By unit and grade, how many must hold which certification on a day, and how many do. */
export const requirementsQuery = (filters: { asOf?: string | undefined; unitId?: string | undefined }) =>
  queryOptions({
    queryKey: ['requirements', filters],
    queryFn: () => allPages<typeof Requirements>('/requirements', filters),
    placeholderData: keepPreviousData,
  })

export const addSoldier = (body: SoldierBody) => send<typeof Created>('POST', '/soldiers', body)

export const enterChange = (id: string, body: SoldierChangeBody) =>
  send<typeof Soldier>('POST', `/soldiers/${id}/changes`, body)

export const correctChange = (id: string, change: number, body: ChangeCorrectionBody) =>
  send<typeof Soldier>('PUT', `/soldiers/${id}/changes/${change}`, body)

export const removeChange = (id: string, change: number, reason: string) =>
  send<typeof Soldier>('POST', `/soldiers/${id}/changes/${change}/remove`, { reason })

export const correctNames = (id: string, body: NamesBody) => send<typeof Soldier>('PUT', `/soldiers/${id}`, body)

export const addAbsence = (id: string, body: AbsenceBody) =>
  send<typeof Created>('POST', `/soldiers/${id}/absences`, body)

export const changeAbsence = (id: string, body: AbsenceBody) => send<typeof Created>('PUT', `/absences/${id}`, body)

export const removeAbsence = (id: string) => remove(`/absences/${id}`)

export const mergeSoldiers = (id: string, awayId: string, reason: string) =>
  send<typeof Created>('POST', `/soldiers/${id}/merges`, { awayId, reason })

export const undoMerge = (id: string, reason: string) => send<typeof Created>('POST', `/merges/${id}/undo`, { reason })

/** Who stands how may be otherwise after any change to a soldier. */
export const forgetPeople = (client: QueryClient) => client.invalidateQueries()

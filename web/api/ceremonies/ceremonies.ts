import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { AlternatesBody, CeremonyBody, CeremonyChange } from '#contract/ceremonies/ceremonies.ts'
import * as endpoints from '#contract/ceremonies/endpoints.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

/** Every ceremony to come, with how many of its posts are filled. */
export const ceremoniesQuery = queryOptions({
  queryKey: ['ceremonies'],
  queryFn: () => everyPage(endpoints.listCeremonies),
})

/** Ceremonies from a day on (today without one), page after page; those called off, too, where asked for. */
export const ceremonyListQuery = (filters: { from?: string; cancelled?: 'with' }) =>
  infiniteQueryOptions({
    queryKey: ['ceremonies', 'list', filters],
    queryFn: ({ pageParam }) => call(endpoints.listCeremonies, { query: { ...filters, limit: 50, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

/** A ceremony as it forms up, post by post. */
export const ceremonyQuery = (id: string) =>
  queryOptions({
    queryKey: ['ceremonies', id],
    queryFn: () => call(endpoints.getCeremony, { params: { id } }),
    enabled: id !== '',
    placeholderData: keepPreviousData,
  })

const OUTLOOK_ROWS = 500

/** How the people of a unit stand with a ceremony; the first 500 rows. */
export const outlookQuery = (id: string, unitId: string | undefined) =>
  queryOptions({
    queryKey: ['ceremonies', id, 'outlook', unitId],
    queryFn: () => call(endpoints.getOutlook, { params: { id }, query: { unitId, limit: OUTLOOK_ROWS } }),
    placeholderData: keepPreviousData,
  })

/** The next ceremonies with their shortfalls and how one's own people stand with them. */
export const outlooksQuery = (filters: { unitId?: string }, limit: number) =>
  queryOptions({
    queryKey: ['ceremonies', 'outlooks', filters, limit],
    queryFn: () => call(endpoints.listOutlooks, { query: { ...filters, limit } }),
    placeholderData: keepPreviousData,
  })

/** Who could be named to a post, page after page; with a search also who may not stand there. */
export const postCandidatesQuery = (id: string, postId: string, q: string) =>
  infiniteQueryOptions({
    queryKey: ['ceremonies', id, 'candidates', postId, q],
    queryFn: ({ pageParam }) =>
      call(endpoints.listPostCandidates, { params: { id, postId }, query: { q, limit: 40, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const createCeremony = (body: CeremonyBody) => call(endpoints.createCeremony, { body })

export const changeCeremony = (id: string, body: CeremonyChange) =>
  call(endpoints.changeCeremony, { params: { id }, body })

export const nameSoldiers = (id: string, version: number, names: { postId: string; soldierId: string | null }[]) =>
  call(endpoints.nameSoldiers, { params: { id }, body: { version, names } })

export const changeAlternates = (id: string, body: AlternatesBody) =>
  call(endpoints.changeAlternates, { params: { id }, body })

export const cancelCeremony = (id: string, version: number, reason: string) =>
  call(endpoints.cancelCeremony, { params: { id }, body: { version, reason } })

export const setHeight = (soldierId: string, heightCm: number | null) =>
  call(endpoints.setHeight, { params: { id: soldierId }, body: { heightCm } })

import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import type {
  AlternatesBody,
  CeremonyBody,
  CeremonyChange,
  CeremonyDetail,
  CeremonyPage,
  ChangedCeremony,
  HeightBody,
} from '#contract/ceremonies/ceremonies.ts'
import type { PostCandidatePage } from '#contract/ceremonies/manning.ts'
import type { Outlook, OutlookPage } from '#contract/ceremonies/outlooks.ts'
import type { Created } from '#contract/common.ts'
import { allPages } from '../all-pages.ts'
import { get, send } from '../client.ts'

/** Every ceremony to come, with how many of its posts are filled. */
export const ceremoniesQuery = queryOptions({
  queryKey: ['ceremonies'],
  queryFn: () => allPages<typeof CeremonyPage>('/ceremonies'),
})

/** Ceremonies from a day on (today without one), page after page; those called off, too, where asked for. */
export const ceremonyListQuery = (filters: { from?: string; cancelled?: 'with' }) =>
  infiniteQueryOptions({
    queryKey: ['ceremonies', 'list', filters],
    queryFn: ({ pageParam }) => get<typeof CeremonyPage>('/ceremonies', { ...filters, limit: 50, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

/** A ceremony as it forms up, post by post. */
export const ceremonyQuery = (id: string) =>
  queryOptions({
    queryKey: ['ceremonies', id],
    queryFn: () => get<typeof CeremonyDetail>(`/ceremonies/${id}`),
    enabled: id !== '',
    placeholderData: keepPreviousData,
  })

const OUTLOOK_ROWS = 500

/** How the people of a unit stand with a ceremony; the first 500 rows. */
export const outlookQuery = (id: string, unitId: string | undefined) =>
  queryOptions({
    queryKey: ['ceremonies', id, 'outlook', unitId],
    queryFn: () => get<typeof Outlook>(`/ceremonies/${id}/outlook`, { unitId, limit: OUTLOOK_ROWS }),
    placeholderData: keepPreviousData,
  })

/** The next ceremonies with their shortfalls and how one's own people stand with them. */
export const outlooksQuery = (filters: { unitId?: string }, limit: number) =>
  queryOptions({
    queryKey: ['ceremonies', 'outlooks', filters, limit],
    queryFn: () => get<typeof OutlookPage>('/outlooks', { ...filters, limit }),
    placeholderData: keepPreviousData,
  })

/** Who could be named to a post, page after page; with a search also who may not stand there. */
export const postCandidatesQuery = (id: string, postId: string, q: string) =>
  infiniteQueryOptions({
    queryKey: ['ceremonies', id, 'candidates', postId, q],
    queryFn: ({ pageParam }) =>
      get<typeof PostCandidatePage>(`/ceremonies/${id}/posts/${postId}/candidates`, { q, limit: 40, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const createCeremony = (body: CeremonyBody) => send<typeof Created>('POST', '/ceremonies', body)

export const changeCeremony = (id: string, body: CeremonyChange) =>
  send<typeof ChangedCeremony>('PUT', `/ceremonies/${id}`, body)

export const nameSoldiers = (id: string, version: number, names: { postId: string; soldierId: string | null }[]) =>
  send<typeof ChangedCeremony>('POST', `/ceremonies/${id}/name`, { version, names })

export const changeAlternates = (id: string, body: AlternatesBody) =>
  send<typeof ChangedCeremony>('PUT', `/ceremonies/${id}/alternates`, body)

export const cancelCeremony = (id: string, version: number, reason: string) =>
  send<typeof ChangedCeremony>('POST', `/ceremonies/${id}/cancel`, { version, reason })

export const setHeight = (soldierId: string, heightCm: number | null) =>
  send<typeof HeightBody>('PUT', `/soldiers/${soldierId}/height`, { heightCm })

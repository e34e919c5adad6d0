import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { CandidateCoaching, Coaching } from '#contract/coaching/coaching.ts'
import type { CoachingNoteBody, CoachingNotePage } from '#contract/coaching/coaching-notes.ts'
import type { Created } from '#contract/common.ts'
import type { SponsorshipBody } from '#contract/soldiers/soldiers.ts'
import { get, send } from '../client.ts'

/** No sponsor has more candidates than one page of this size holds. */
const LARGEST_PAGE = 500

/** The present candidates of who is signed in, a sponsor. */
export const coachingQuery = queryOptions({
  queryKey: ['coaching', 'mine'],
  queryFn: () => get<typeof Coaching>('/coaching', { limit: LARGEST_PAGE }),
})

/** What is ahead of one soldier and what to drill: for a standard, or without one for the next test. */
export const candidateCoachingQuery = (id: string, standard: string) =>
  queryOptions({
    queryKey: ['coaching', id, standard],
    queryFn: () => get<typeof CandidateCoaching>(`/soldiers/${id}/coaching`, { standard }),
    placeholderData: keepPreviousData,
  })

export const coachingNotesQuery = (id: string) =>
  infiniteQueryOptions({
    queryKey: ['coaching-notes', id],
    queryFn: ({ pageParam }) =>
      get<typeof CoachingNotePage>(`/soldiers/${id}/coaching-notes`, { limit: 20, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

export const addNote = (candidateId: string, body: CoachingNoteBody) =>
  send<typeof Created>('POST', `/soldiers/${candidateId}/coaching-notes`, body)

export const changeNote = (id: string, body: CoachingNoteBody) =>
  send<typeof Created>('PUT', `/coaching-notes/${id}`, body)

export const removeNote = (id: string) => send<typeof Created>('POST', `/coaching-notes/${id}/remove`, undefined)

export const restoreNote = (id: string) => send<typeof Created>('POST', `/coaching-notes/${id}/restore`, undefined)

export const addSponsorship = (candidateId: string, body: SponsorshipBody) =>
  send<typeof Created>('POST', `/soldiers/${candidateId}/sponsorships`, body)

export const endSponsorship = (candidateId: string, id: string, on: string) =>
  send<typeof Created>('POST', `/soldiers/${candidateId}/sponsorships/${id}/end`, { on })

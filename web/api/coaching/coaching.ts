import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { CoachingNoteBody } from '#contract/coaching/coaching-notes.ts'
import * as endpoints from '#contract/coaching/endpoints.ts'
import * as soldiersEndpoints from '#contract/soldiers/endpoints.ts'
import type { SponsorshipBody } from '#contract/soldiers/soldiers.ts'
import { call } from '../client.ts'

/** No sponsor has more candidates than one page of this size holds. */
const LARGEST_PAGE = 500

/** The present candidates of who is signed in, a sponsor. */
export const coachingQuery = queryOptions({
  queryKey: ['coaching', 'mine'],
  queryFn: () => call(endpoints.getCoaching, { query: { limit: LARGEST_PAGE } }),
})

/** What is ahead of one soldier and what to drill: for a standard, or without one for the next test. */
export const candidateCoachingQuery = (id: string, standard: string) =>
  queryOptions({
    queryKey: ['coaching', id, standard],
    queryFn: () => call(endpoints.getCandidateCoaching, { params: { id }, query: { standard } }),
    placeholderData: keepPreviousData,
  })

export const coachingNotesQuery = (id: string) =>
  infiniteQueryOptions({
    queryKey: ['coaching-notes', id],
    queryFn: ({ pageParam }) =>
      call(endpoints.listCoachingNotes, { params: { id }, query: { limit: 20, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

export const addNote = (candidateId: string, body: CoachingNoteBody) =>
  call(endpoints.addCoachingNote, { params: { id: candidateId }, body })

export const changeNote = (id: string, body: CoachingNoteBody) =>
  call(endpoints.changeCoachingNote, { params: { id }, body })

export const removeNote = (id: string) => call(endpoints.removeCoachingNote, { params: { id } })

export const restoreNote = (id: string) => call(endpoints.restoreCoachingNote, { params: { id } })

export const addSponsorship = (candidateId: string, body: SponsorshipBody) =>
  call(soldiersEndpoints.addSponsorship, { params: { id: candidateId }, body })

export const endSponsorship = (candidateId: string, id: string, on: string) =>
  call(soldiersEndpoints.endSponsorship, { params: { id: candidateId, sponsorship: id }, body: { on } })

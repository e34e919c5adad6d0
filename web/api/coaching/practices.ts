import { infiniteQueryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/coaching/endpoints.ts'
import type { PracticeBody } from '#contract/coaching/practices.ts'
import { call } from '../client.ts'

/** Practice of chosen measures with a candidate, the latest first. */
export const practicesQuery = (candidateId: string) =>
  infiniteQueryOptions({
    queryKey: ['practices', candidateId],
    queryFn: ({ pageParam }) =>
      call(endpoints.listPractices, { params: { id: candidateId }, query: { limit: 20, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

export const putPractice = (id: string, body: PracticeBody) => call(endpoints.storePractice, { params: { id }, body })

export const removePractice = (id: string) => call(endpoints.removePractice, { params: { id } })

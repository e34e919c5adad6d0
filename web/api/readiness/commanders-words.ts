import { infiniteQueryOptions, keepPreviousData, type QueryClient, queryOptions } from '@tanstack/react-query'
import type { AwardDecisionBody, ExtensionBody } from '#contract/readiness/commanders-words.ts'
import * as endpoints from '#contract/readiness/endpoints.ts'
import { call } from '../client.ts'

/** What waits for a commander's signature, the longest waiting first, page after page. */
export const waitingAwardsQuery = (filters: { unitId?: string | undefined; soldierId?: string | undefined }) =>
  infiniteQueryOptions({
    queryKey: ['approvals', filters],
    queryFn: ({ pageParam }) => call(endpoints.listWaitingAwards, { query: { ...filters, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

/** What commanders said about a soldier's certifications. */
export const commandersWordsQuery = (soldierId: string) =>
  queryOptions({
    queryKey: ['approvals', 'words', soldierId],
    queryFn: () => call(endpoints.getCommandersWords, { params: { id: soldierId } }),
  })

export const decideAwards = (body: AwardDecisionBody) => call(endpoints.decideAwards, { body })

export const extendCertification = (body: ExtensionBody) => call(endpoints.extendCertification, { body })

/** Takes a decision or an extension back. */
export const takeBack = (kind: 'approvals' | 'extensions', id: string, reason: string) =>
  call(kind === 'approvals' ? endpoints.takeBackAwardDecision : endpoints.takeBackExtension, {
    params: { id },
    body: { reason },
  })

/** Who can stand, and where, is another matter after a commander's word. */
export const invalidateStandings = (client: QueryClient) =>
  Promise.all(
    ['approvals', 'soldiers', 'readiness', 'ceremonies', 'sheets'].map((subject) =>
      client.invalidateQueries({ queryKey: [subject] }),
    ),
  )

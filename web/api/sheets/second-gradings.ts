import { infiniteQueryOptions } from '@tanstack/react-query'
import * as testDaysEndpoints from '#contract/test-days/endpoints.ts'
import { call } from '../client.ts'

/** Attempts that two graders graded, the latest first, page after page. */
export const secondGradingsQuery = (differing: boolean, limit = 50) =>
  infiniteQueryOptions({
    queryKey: ['sheets', 'second gradings', differing, limit],
    queryFn: ({ pageParam }) =>
      call(testDaysEndpoints.listSecondGradings, {
        query: { differing: differing ? 'true' : 'false', limit, after: pageParam },
      }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

import { infiniteQueryOptions } from '@tanstack/react-query'
import type { SecondGradingPage } from '#contract/sheets/second-gradings.ts'
import { get } from '../client.ts'

/** Attempts that two graders graded, the latest first, page after page. */
export const secondGradingsQuery = (differing: boolean, limit = 50) =>
  infiniteQueryOptions({
    queryKey: ['sheets', 'second gradings', differing, limit],
    queryFn: ({ pageParam }) =>
      get<typeof SecondGradingPage>('/second-gradings', { differing: String(differing), limit, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/notices/endpoints.ts'
import { call } from '../client.ts'

const ASKED_EVERY_MS = 120_000

/** How many of one's own notices are unread; asked again every two minutes. */
export const unreadQuery = queryOptions({
  queryKey: ['notices', 'unread'],
  queryFn: () => call(endpoints.countUnreadNotices),
  refetchInterval: ASKED_EVERY_MS,
})

/** One's own notices, the latest first, page after page. */
export const noticesQuery = infiniteQueryOptions({
  queryKey: ['notices', 'list'],
  queryFn: ({ pageParam }) => call(endpoints.listNotices, { query: { limit: 50, after: pageParam } }),
  initialPageParam: undefined as string | undefined,
  getNextPageParam: (page) => page.next ?? undefined,
})

/** Marks some notices as read; without ids all of them. */
export const readNotices = (ids?: string[]) => call(endpoints.readNotices, { body: ids === undefined ? {} : { ids } })

import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import type { NoticePage, UnreadNotices } from '#contract/notices/notices.ts'
import { get, send } from '../client.ts'

const ASKED_EVERY_MS = 120_000

/** How many of one's own notices are unread; asked again every two minutes. */
export const unreadQuery = queryOptions({
  queryKey: ['notices', 'unread'],
  queryFn: () => get<typeof UnreadNotices>('/notices/unread'),
  refetchInterval: ASKED_EVERY_MS,
})

/** One's own notices, the latest first, page after page. */
export const noticesQuery = infiniteQueryOptions({
  queryKey: ['notices', 'list'],
  queryFn: ({ pageParam }) => get<typeof NoticePage>('/notices', { limit: 50, after: pageParam }),
  initialPageParam: undefined as string | undefined,
  getNextPageParam: (page) => page.next ?? undefined,
})

/** Marks some notices as read; without ids all of them. */
export const readNotices = (ids?: string[]) =>
  send<typeof UnreadNotices>('POST', '/notices/read', ids === undefined ? {} : { ids })

import { infiniteQueryOptions, type QueryClient, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/mail/endpoints.ts'
import { call } from '../client.ts'

const LOOK_MS = 15_000

/** How it stands with mail; asked again and again, for it is sent in the background. */
export const mailStatusQuery = queryOptions({
  queryKey: ['mail', 'status'],
  queryFn: () => call(endpoints.getMailStatus),
  refetchInterval: LOOK_MS,
})

/** Undelivered mail, the latest first, page after page. */
export const failedMailsQuery = infiniteQueryOptions({
  queryKey: ['mail', 'failures'],
  queryFn: ({ pageParam }) => call(endpoints.listFailedMails, { query: { limit: 50, after: pageParam } }),
  initialPageParam: undefined as string | undefined,
  getNextPageParam: (page) => page.next ?? undefined,
})

export const sendTestMail = () => call(endpoints.sendTestMail)

export const retryMail = (id: string) => call(endpoints.retryMail, { params: { id } })

export const dropMail = (id: string) => call(endpoints.dropMail, { params: { id } })

export const invalidateMail = (client: QueryClient) => client.invalidateQueries({ queryKey: ['mail'] })

import { infiniteQueryOptions, keepPreviousData, type QueryClient } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type { SuspensionPage } from '#contract/readiness/suspensions.ts'
import type { LiftBody, SuspensionBody } from '#contract/soldiers/soldiers.ts'
import { get, send } from '../client.ts'

/** Suspensions, those in force first, page after page. */
export const suspensionsQuery = (filters: { soldierId?: string | undefined; unitId?: string | undefined }) =>
  infiniteQueryOptions({
    queryKey: ['suspensions', filters],
    queryFn: ({ pageParam }) => get<typeof SuspensionPage>('/suspensions', { ...filters, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const suspend = (body: SuspensionBody) => send<typeof Created>('POST', '/suspensions', body)

export const liftSuspension = (id: string, body: LiftBody) =>
  send<typeof Created>('POST', `/suspensions/${id}/lift`, body)

/** Who can stand, and where, is another matter after a suspension. */
export const invalidateSuspensions = (client: QueryClient) =>
  Promise.all(
    ['suspensions', 'soldiers', 'readiness', 'ceremonies', 'sheets'].map((subject) =>
      client.invalidateQueries({ queryKey: [subject] }),
    ),
  )

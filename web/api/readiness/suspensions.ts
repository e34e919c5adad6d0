import { infiniteQueryOptions, keepPreviousData, type QueryClient } from '@tanstack/react-query'
import * as endpoints from '#contract/readiness/endpoints.ts'
import type { LiftBody, SuspensionBody } from '#contract/soldiers/soldiers.ts'
import { call } from '../client.ts'

/** Suspensions, those in force first, page after page. */
export const suspensionsQuery = (filters: { soldierId?: string | undefined; unitId?: string | undefined }) =>
  infiniteQueryOptions({
    queryKey: ['suspensions', filters],
    queryFn: ({ pageParam }) => call(endpoints.listSuspensions, { query: { ...filters, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const suspend = (body: SuspensionBody) => call(endpoints.suspend, { body })

export const liftSuspension = (id: string, body: LiftBody) => call(endpoints.liftSuspension, { params: { id }, body })

/** Who can stand, and where, is another matter after a suspension. */
export const invalidateSuspensions = (client: QueryClient) =>
  Promise.all(
    ['suspensions', 'soldiers', 'readiness', 'ceremonies', 'sheets'].map((subject) =>
      client.invalidateQueries({ queryKey: [subject] }),
    ),
  )

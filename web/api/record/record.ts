import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/record/endpoints.ts'
import type { RecordKind } from '#contract/record/record.ts'
import { call } from '../client.ts'

export interface RecordFilters {
  from?: string | undefined
  to?: string | undefined
  account?: string | undefined
  soldierId?: string | undefined
  kind?: RecordKind | 'changes' | undefined
}

/** The record of changes, the newest first, page after page. */
export const recordQuery = (filters: RecordFilters, limit = 50) =>
  infiniteQueryOptions({
    queryKey: ['record', filters, limit],
    queryFn: ({ pageParam }) => call(endpoints.listRecord, { query: { ...filters, limit, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

/** Walks the whole chain; asked for only when somebody wants to know. */
export const verificationQuery = queryOptions({
  queryKey: ['record', 'verification'],
  queryFn: () => call(endpoints.verifyRecord),
  enabled: false,
})

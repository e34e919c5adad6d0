import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/soldiers/endpoints.ts'
import type { RemovalBody } from '#contract/soldiers/removals.ts'
import { call } from '../client.ts'

/** What removing a soldier's personal data would take out, what stays, and where else the name stands. */
export const removalQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'removal'],
    queryFn: () => call(endpoints.previewRemoval, { params: { id } }),
    staleTime: 0,
  })

export const removeSoldier = (id: string, body: RemovalBody) => call(endpoints.removeSoldier, { params: { id }, body })

import { queryOptions } from '@tanstack/react-query'
import type { RemovalBody, RemovalPreview, Removed } from '#contract/soldiers/removals.ts'
import { get, send } from '../client.ts'

/** What removing a soldier's personal data would take out, what stays, and where else the name stands. */
export const removalQuery = (id: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'removal'],
    queryFn: () => get<typeof RemovalPreview>(`/soldiers/${id}/removal`),
    staleTime: 0,
  })

export const removeSoldier = (id: string, body: RemovalBody) =>
  send<typeof Removed>('POST', `/soldiers/${id}/removal`, body)

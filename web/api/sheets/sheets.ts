import { infiniteQueryOptions, type QueryClient, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/sheets/endpoints.ts'
import type { SheetAmendment, SheetBody, SheetDecisionBody } from '#contract/sheets/sheets.ts'
import { call } from '../client.ts'

export interface SheetFilters {
  soldierId?: string
  purpose?: 'test' | 'practice'
  state?: 'counted' | 'held' | 'rejected'
}

/** Sheets, the newest first, page after page. */
export const sheetsQuery = (filters: SheetFilters, limit = 50) =>
  infiniteQueryOptions({
    queryKey: ['sheets', filters, limit],
    queryFn: ({ pageParam }) => call(endpoints.listSheets, { query: { ...filters, limit, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

export const sheetQuery = (id: string) =>
  queryOptions({ queryKey: ['sheets', id], queryFn: () => call(endpoints.getSheet, { params: { id } }) })

/** Stores a sheet under the client's own id; sending the same again changes nothing, so a retry is safe. */
export const putSheet = (id: string, body: SheetBody, now: Date) =>
  call(endpoints.submitSheet, { params: { id }, body, headers: { 'x-device-time': now.toISOString() } })

/** A new revision of a stored sheet; one that changes the outcome is only proposed. */
export const amendSheet = (id: string, body: SheetAmendment) => call(endpoints.amendSheet, { params: { id }, body })

export const decideSheet = (id: string, body: SheetDecisionBody) =>
  call(endpoints.decideSheet, { params: { id }, body })

/** A sheet that counts, or no longer does, changes nearly every figure: all of them are asked for anew. */
export const invalidateSheets = (client: QueryClient) =>
  Promise.all(
    ['sheets', 'soldiers', 'readiness', 'retests', 'findings', 'ceremonies'].map((subject) =>
      client.invalidateQueries({ queryKey: [subject] }),
    ),
  )

import { infiniteQueryOptions, type QueryClient, queryOptions } from '@tanstack/react-query'
import type { ProposedAmendment } from '#contract/sheets/amendments.ts'
import type {
  SheetAmendment,
  SheetBody,
  SheetDecisionBody,
  SheetDetail,
  SheetPage,
  StoredSheet,
} from '#contract/sheets/sheets.ts'
import { get, send } from '../client.ts'

export interface SheetFilters {
  soldierId?: string
  purpose?: 'test' | 'practice'
  state?: 'counted' | 'held' | 'rejected'
}

/** Sheets, the newest first, page after page. */
export const sheetsQuery = (filters: SheetFilters, limit = 50) =>
  infiniteQueryOptions({
    queryKey: ['sheets', filters, limit],
    queryFn: ({ pageParam }) => get<typeof SheetPage>('/sheets', { ...filters, limit, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
  })

export const sheetQuery = (id: string) =>
  queryOptions({ queryKey: ['sheets', id], queryFn: () => get<typeof SheetDetail>(`/sheets/${id}`) })

/** Stores a sheet under the client's own id; sending the same again changes nothing, so a retry is safe. */
export const putSheet = (id: string, body: SheetBody, now: Date) =>
  send<typeof StoredSheet>('PUT', `/sheets/${id}`, body, { 'x-device-time': now.toISOString() })

/** A new revision of a stored sheet; one that changes the outcome is only proposed. */
export const amendSheet = (id: string, body: SheetAmendment) =>
  send<typeof StoredSheet | typeof ProposedAmendment>('POST', `/sheets/${id}/amendments`, body)

export const decideSheet = (id: string, body: SheetDecisionBody) =>
  send<typeof StoredSheet>('POST', `/sheets/${id}/decision`, body)

/** A sheet that counts, or no longer does, changes nearly every figure: all of them are asked for anew. */
export const invalidateSheets = (client: QueryClient) =>
  Promise.all(
    ['sheets', 'soldiers', 'readiness', 'retests', 'findings', 'ceremonies'].map((subject) =>
      client.invalidateQueries({ queryKey: [subject] }),
    ),
  )

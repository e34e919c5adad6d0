import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/sheets/endpoints.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'
import { amendSheet } from './sheets.ts'

/** Pairs of sheets that may be of one test, the latest first. */
export const duplicatesQuery = queryOptions({
  queryKey: ['sheets', 'duplicates'],
  queryFn: () => everyPage(endpoints.listPossibleDuplicates),
})

/**
 * Proposes that a sheet is of the same test as another, which stands; null: that it is of a test of its own again. All else
 * it says stays.
 */
export const proposeDuplicate = async (id: string, stands: string | null, reason: string) => {
  const { revisions } = await call(endpoints.getSheet, { params: { id } })
  const { duplicateOf: _, ...body } = revisions.at(-1)!.body
  return amendSheet(id, { reason, sheet: stands === null ? body : { ...body, duplicateOf: stands } })
}

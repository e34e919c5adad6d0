import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/sheets/endpoints.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

/** Amendments that wait for a second person. */
export const openAmendmentsQuery = queryOptions({
  queryKey: ['sheets', 'amendments'],
  queryFn: () => everyPage(endpoints.listAmendments, { query: { open: 'true' } }),
})

/** Appeals that wait for a decision. */
export const openAppealsQuery = queryOptions({
  queryKey: ['sheets', 'appeals'],
  queryFn: () => everyPage(endpoints.listAppeals, { query: { open: 'true' } }),
})

export const decideAmendment = (id: string, decision: 'confirm' | 'refuse', reason: string) =>
  call(endpoints.decideAmendment, { params: { id }, body: { decision, reason } })

export const decideAppeal = (id: string, decision: 'uphold' | 'dismiss', reason: string) =>
  call(endpoints.decideAppeal, { params: { id }, body: { decision, reason } })

export const appealSheet = (sheetId: string, reason: string) =>
  call(endpoints.appealSheet, { params: { id: sheetId }, body: { reason } })

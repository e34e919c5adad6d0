import { queryOptions } from '@tanstack/react-query'
import { AmendmentProposalPage } from '#contract/amendments.ts'
import { AppealPage } from '#contract/appeals.ts'
import { Created } from '#contract/common.ts'
import { StoredSheet } from '#contract/sheets.ts'
import { allPages } from './all-pages.ts'
import { send } from './client.ts'

/** Amendments that wait for a second person. */
export const openAmendmentsQuery = queryOptions({
  queryKey: ['sheets', 'amendments'],
  queryFn: () => allPages(AmendmentProposalPage, '/amendments', { open: 'true' }),
})

/** Appeals that wait for a decision. */
export const openAppealsQuery = queryOptions({
  queryKey: ['sheets', 'appeals'],
  queryFn: () => allPages(AppealPage, '/appeals', { open: 'true' }),
})

export const decideAmendment = (id: string, decision: 'confirm' | 'refuse', reason: string) =>
  send(StoredSheet, 'POST', `/amendments/${id}/decision`, { decision, reason })

export const decideAppeal = (id: string, decision: 'uphold' | 'dismiss', reason: string) =>
  send(Created, 'POST', `/appeals/${id}/decision`, { decision, reason })

export const appealSheet = (sheetId: string, reason: string) =>
  send(Created, 'POST', `/sheets/${sheetId}/appeals`, { reason })

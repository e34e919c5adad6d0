import { queryOptions } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type { AmendmentProposalPage } from '#contract/sheets/amendments.ts'
import type { AppealPage } from '#contract/sheets/appeals.ts'
import type { StoredSheet } from '#contract/sheets/sheets.ts'
import { allPages } from '../all-pages.ts'
import { send } from '../client.ts'

/** Amendments that wait for a second person. */
export const openAmendmentsQuery = queryOptions({
  queryKey: ['sheets', 'amendments'],
  queryFn: () => allPages<typeof AmendmentProposalPage>('/amendments', { open: 'true' }),
})

/** Appeals that wait for a decision. */
export const openAppealsQuery = queryOptions({
  queryKey: ['sheets', 'appeals'],
  queryFn: () => allPages<typeof AppealPage>('/appeals', { open: 'true' }),
})

export const decideAmendment = (id: string, decision: 'confirm' | 'refuse', reason: string) =>
  send<typeof StoredSheet>('POST', `/amendments/${id}/decision`, { decision, reason })

export const decideAppeal = (id: string, decision: 'uphold' | 'dismiss', reason: string) =>
  send<typeof Created>('POST', `/appeals/${id}/decision`, { decision, reason })

export const appealSheet = (sheetId: string, reason: string) =>
  send<typeof Created>('POST', `/sheets/${sheetId}/appeals`, { reason })

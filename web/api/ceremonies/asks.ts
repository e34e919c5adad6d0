import { queryOptions } from '@tanstack/react-query'
import type { AnswerBody, AskBody } from '#contract/ceremonies/asks.ts'
import * as endpoints from '#contract/ceremonies/endpoints.ts'
import { call } from '../client.ts'

/** What other units were asked for a ceremony, and which can be asked. */
export const asksForQuery = (ceremonyId: string) =>
  queryOptions({
    queryKey: ['ceremonies', ceremonyId, 'asks'],
    queryFn: () => call(endpoints.listAsksFor, { params: { id: ceremonyId } }),
  })

/** What one's own unit is asked for and has not answered. */
export const openAsksQuery = queryOptions({
  queryKey: ['ceremonies', 'asks'],
  queryFn: () => call(endpoints.listAsks),
})

/** Who of the unit asked can stand there. */
export const askCandidatesQuery = (id: string) =>
  queryOptions({
    queryKey: ['ceremonies', 'asks', id, 'candidates'],
    queryFn: () => call(endpoints.listAskCandidates, { params: { id } }),
  })

export const askUnit = (ceremonyId: string, body: AskBody) =>
  call(endpoints.askUnit, { params: { id: ceremonyId }, body })

export const answerAsk = (id: string, body: AnswerBody) => call(endpoints.answerAsk, { params: { id }, body })

export const takeAskBack = (id: string) => call(endpoints.takeAskBack, { params: { id } })

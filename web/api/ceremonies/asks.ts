import { queryOptions } from '@tanstack/react-query'
import type { AnswerBody, AskBody, AskCandidates, AskList, CeremonyAsks } from '#contract/ceremonies/asks.ts'
import type { Created } from '#contract/common.ts'
import { get, send } from '../client.ts'

/** What other units were asked for a ceremony, and which can be asked. */
export const asksForQuery = (ceremonyId: string) =>
  queryOptions({
    queryKey: ['ceremonies', ceremonyId, 'asks'],
    queryFn: () => get<typeof CeremonyAsks>(`/ceremonies/${ceremonyId}/asks`),
  })

/** What one's own unit is asked for and has not answered. */
export const openAsksQuery = queryOptions({
  queryKey: ['ceremonies', 'asks'],
  queryFn: () => get<typeof AskList>('/asks'),
})

/** Who of the unit asked can stand there. */
export const askCandidatesQuery = (id: string) =>
  queryOptions({
    queryKey: ['ceremonies', 'asks', id, 'candidates'],
    queryFn: () => get<typeof AskCandidates>(`/asks/${id}/candidates`),
  })

export const askUnit = (ceremonyId: string, body: AskBody) =>
  send<typeof Created>('POST', `/ceremonies/${ceremonyId}/asks`, body)

export const answerAsk = (id: string, body: AnswerBody) => send<typeof Created>('POST', `/asks/${id}/answer`, body)

export const takeAskBack = (id: string) => send<typeof Created>('POST', `/asks/${id}/take-back`, {})

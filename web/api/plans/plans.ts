import { queryOptions } from '@tanstack/react-query'
import type { z } from 'zod'
import type {
  Accepted,
  AskedPlan,
  PlanBody as PlanBodySchema,
  Plan as PlanSchema,
  RetestPlanRows as RowsSchema,
  Undone,
} from '#contract/plans/plans.ts'
import { get, send } from '../client.ts'

export type PlanAsked = z.input<typeof PlanBodySchema>

const WATCH_MS = 700

export const isUnderWay = ({ state }: { state: string }): boolean => state === 'waiting' || state === 'solving'

/** Asks for a plan: the one there is while nothing has changed, else a new one. */
export const askedPlanQuery = (asked: PlanAsked | null) =>
  queryOptions({
    queryKey: ['plans', 'asked', asked],
    queryFn: () => send<typeof AskedPlan>('POST', '/plans', asked),
    enabled: asked !== null,
    staleTime: 0,
  })

export const askPlan = (asked: PlanAsked) => send<typeof AskedPlan>('POST', '/plans', asked)

/** A plan, asked about again and again while it is worked out. */
export const planQuery = (id: string | undefined) =>
  queryOptions({
    queryKey: ['plans', id],
    queryFn: () => get<typeof PlanSchema>(`/plans/${id}`),
    enabled: id !== undefined,
    refetchInterval: ({ state }) => (state.data && isUnderWay(state.data) ? WATCH_MS : false),
  })

/** What goes where and what is not placed; there once the plan is worked out. */
export const retestRowsQuery = (id: string | undefined, isWorkedOut: boolean) =>
  queryOptions({
    queryKey: ['plans', id, 'retests'],
    queryFn: () => get<typeof RowsSchema>(`/plans/${id}/retests`),
    enabled: id !== undefined && isWorkedOut,
  })

export const acceptPlan = (id: string, pairs: string[] | 'all') =>
  send<typeof Accepted>('POST', `/plans/${id}/accept`, { pairs })

export const undoPlan = (id: string) => send<typeof Undone>('POST', `/plans/${id}/undo`, {})

export const stopPlan = (id: string) => send<typeof PlanSchema>('POST', `/plans/${id}/stop`, {})

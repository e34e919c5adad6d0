import { queryOptions, skipToken } from '@tanstack/react-query'
import type { z } from 'zod'
import * as endpoints from '#contract/plans/endpoints.ts'
import type { PlanBody as PlanBodySchema } from '#contract/plans/plans.ts'
import { call } from '../client.ts'

export type PlanAsked = z.input<typeof PlanBodySchema>

const WATCH_MS = 700

export const isUnderWay = ({ state }: { state: string }): boolean => state === 'waiting' || state === 'solving'

/** Asks for a plan: the one there is while nothing has changed, else a new one. */
export const askedPlanQuery = (asked: PlanAsked | null) =>
  queryOptions({
    queryKey: ['plans', 'asked', asked],
    queryFn: asked === null ? skipToken : () => askPlan(asked),
    staleTime: 0,
  })

export const askPlan = (asked: PlanAsked) => call(endpoints.askPlan, { body: asked })

/** A plan, asked about again and again while it is worked out. */
export const planQuery = (id: string | undefined) =>
  queryOptions({
    queryKey: ['plans', id],
    queryFn: id === undefined ? skipToken : () => call(endpoints.getPlan, { params: { id } }),
    refetchInterval: ({ state }) => (state.data && isUnderWay(state.data) ? WATCH_MS : false),
  })

/** What goes where and what is not placed; there once the plan is worked out. */
export const retestRowsQuery = (id: string | undefined, isWorkedOut: boolean) =>
  queryOptions({
    queryKey: ['plans', id, 'retests'],
    queryFn: id === undefined || !isWorkedOut ? skipToken : () => call(endpoints.getRetestPlanRows, { params: { id } }),
  })

export const acceptPlan = (id: string, pairs: string[] | 'all') =>
  call(endpoints.acceptPlan, { params: { id }, body: { pairs } })

export const undoPlan = (id: string) => call(endpoints.undoPlan, { params: { id } })

export const stopPlan = (id: string) => call(endpoints.stopPlan, { params: { id } })

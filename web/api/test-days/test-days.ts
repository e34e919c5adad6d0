import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { CallOffBody } from '#contract/test-days/bookings.ts'
import * as endpoints from '#contract/test-days/endpoints.ts'
import type { SlotsBody, TestDayBody, TestDayChange } from '#contract/test-days/test-days.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

/** Test days from a day through another; without a last day all that are planned. */
export const testDaysQuery = (filters: { from?: string; through?: string; unitId?: string }) =>
  queryOptions({
    queryKey: ['test-days', filters],
    queryFn: () => everyPage(endpoints.listTestDays, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** One test day with its slots. */
export const testDayQuery = (id: string) =>
  queryOptions({ queryKey: ['test-days', id], queryFn: () => call(endpoints.getTestDay, { params: { id } }) })

export const planTestDay = (body: TestDayBody) => call(endpoints.createTestDay, { body })

export const changeTestDay = (id: string, body: TestDayChange) =>
  call(endpoints.changeTestDay, { params: { id }, body })

export const addSlots = (id: string, body: SlotsBody) => call(endpoints.addSlots, { params: { id }, body })

export const changeSlotGrader = (id: string, graderId: string | null) =>
  call(endpoints.changeSlot, { params: { id }, body: { graderId } })

export const removeSlot = (id: string) => call(endpoints.removeSlot, { params: { id } })

/** Where everybody would go if the day were called off. */
export const callOffPlanQuery = (id: string) =>
  queryOptions({
    queryKey: ['test-days', id, 'call-off-plan'],
    queryFn: () => call(endpoints.planCallOff, { params: { id } }),
    staleTime: 0,
  })

export const callOff = (id: string, body: CallOffBody) => call(endpoints.callOffTestDay, { params: { id }, body })

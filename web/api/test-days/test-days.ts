import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type { BookingPlan, CallOff, CallOffBody, MadeBooking } from '#contract/test-days/bookings.ts'
import type {
  MadeSlots,
  SlotsBody,
  TestDayBody,
  TestDayChange,
  TestDayDetail,
  TestDayPage,
} from '#contract/test-days/test-days.ts'
import { allPages } from '../all-pages.ts'
import { get, remove, send } from '../client.ts'

/** Test days from a day through another; without a last day all that are planned. */
export const testDaysQuery = (filters: { from?: string; through?: string; unitId?: string }) =>
  queryOptions({
    queryKey: ['test-days', filters],
    queryFn: () => allPages<typeof TestDayPage>('/test-days', { ...filters }),
    placeholderData: keepPreviousData,
  })

/** One test day with its slots. */
export const testDayQuery = (id: string) =>
  queryOptions({ queryKey: ['test-days', id], queryFn: () => get<typeof TestDayDetail>(`/test-days/${id}`) })

export const planTestDay = (body: TestDayBody) => send<typeof Created>('POST', '/test-days', body)

export const changeTestDay = (id: string, body: TestDayChange) =>
  send<typeof Created>('PATCH', `/test-days/${id}`, body)

export const addSlots = (id: string, body: SlotsBody) => send<typeof MadeSlots>('POST', `/test-days/${id}/slots`, body)

export const changeSlotGrader = (id: string, graderId: string | null) =>
  send<typeof MadeBooking>('PATCH', `/slots/${id}`, { graderId })

export const removeSlot = (id: string) => remove(`/slots/${id}`)

/** Where everybody would go if the day were called off. */
export const callOffPlanQuery = (id: string) =>
  queryOptions({
    queryKey: ['test-days', id, 'call-off-plan'],
    queryFn: () => get<typeof BookingPlan>(`/test-days/${id}/call-off-plan`),
    staleTime: 0,
  })

export const callOff = (id: string, body: CallOffBody) =>
  send<typeof CallOff>('POST', `/test-days/${id}/call-off`, body)

import { queryOptions } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type {
  BookingMarkBody,
  BookingPlan,
  BulkBooking,
  BulkBookingBody,
  MadeBooking,
  MoveBody,
  WalkIn,
  WalkInBody,
} from '#contract/test-days/bookings.ts'
import type { BookingPage } from '#contract/test-days/test-days.ts'
import { allPages } from '../all-pages.ts'
import { send } from '../client.ts'

export interface BookingFilters {
  testDayId?: string
  candidateId?: string
  from?: string
  state?: 'all'
}

/** Bookings, in order of day; without a state all but cancelled ones. */
export const bookingsQuery = (filters: BookingFilters) =>
  queryOptions({
    queryKey: ['bookings', filters],
    queryFn: () => allPages<typeof BookingPage>('/bookings', { ...filters }),
  })

/** Who of these would get which free slot of these test days. Asked anew each time: slots go. */
export const bookingPlanQuery = (testDayIds: string[], wanted: { candidateId: string; standard: string }[]) =>
  queryOptions({
    queryKey: ['bookings', 'plan', testDayIds, wanted],
    queryFn: () => send<typeof BookingPlan>('POST', '/bookings/plan', { testDayIds, wanted }),
    enabled: testDayIds.length > 0 && wanted.length > 0,
    staleTime: 0,
  })

export const bookInBulk = (body: BulkBookingBody) => send<typeof BulkBooking>('POST', '/bookings/bulk', body)

export const moveBooking = (id: string, body: MoveBody) =>
  send<typeof MadeBooking>('POST', `/bookings/${id}/move`, body)

export const cancelBooking = (id: string, reason: string) =>
  send<typeof Created>('POST', `/bookings/${id}/cancel`, { reason })

/** Says who grades the same attempt independently; null: nobody. */
export const setSecondGrader = (id: string, graderId: string | null) =>
  send<typeof Created>('POST', `/bookings/${id}/second-grader`, { graderId })

/** Books somebody who came without a booking with the grader who is signed in, under the device's id. */
export const addWalkIn = (testDayId: string, id: string, body: WalkInBody) =>
  send<typeof WalkIn>('PUT', `/test-days/${testDayId}/walk-ins/${id}`, body)

export const markBooking = (id: string, body: BookingMarkBody) =>
  send<typeof Created>('POST', `/bookings/${id}/mark`, body)

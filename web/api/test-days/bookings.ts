import { queryOptions } from '@tanstack/react-query'
import type { BookingMarkBody, BulkBookingBody, MoveBody, WalkInBody } from '#contract/test-days/bookings.ts'
import * as endpoints from '#contract/test-days/endpoints.ts'
import type { BookingBody } from '#contract/test-days/test-days.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

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
    queryFn: () => everyPage(endpoints.listBookings, { query: filters }),
  })

/** Who of these would get which free slot of these test days. Asked anew each time: slots go. */
export const bookingPlanQuery = (testDayIds: string[], wanted: { candidateId: string; standard: string }[]) =>
  queryOptions({
    queryKey: ['bookings', 'plan', testDayIds, wanted],
    queryFn: () => call(endpoints.planBookings, { body: { testDayIds, wanted } }),
    enabled: testDayIds.length > 0 && wanted.length > 0,
    staleTime: 0,
  })

/** Books somebody on a test day, in a slot or waiting for one. */
export const bookCandidate = (
  testDayId: string,
  body: Partial<BookingBody> & Pick<BookingBody, 'candidateId' | 'standard'>,
) => call(endpoints.addBooking, { params: { id: testDayId }, body })

export const bookInBulk = (body: BulkBookingBody) => call(endpoints.bookInBulk, { body })

export const moveBooking = (id: string, body: MoveBody) => call(endpoints.moveBooking, { params: { id }, body })

export const cancelBooking = (id: string, reason: string) =>
  call(endpoints.cancelBooking, { params: { id }, body: { reason } })

/** Says who grades the same attempt independently; null: nobody. */
export const setSecondGrader = (id: string, graderId: string | null) =>
  call(endpoints.setSecondGrader, { params: { id }, body: { graderId } })

/** Books somebody who came without a booking with the grader who is signed in, under the device's id. */
export const addWalkIn = (testDayId: string, id: string, body: WalkInBody) =>
  call(endpoints.addWalkIn, { params: { id: testDayId, bookingId: id }, body })

export const markBooking = (id: string, body: BookingMarkBody) => call(endpoints.markBooking, { params: { id }, body })

import { z } from 'zod'
import { Created, Page, PlainDate, Uuid } from '../../contract/common.ts'
import {
  BookingMarkBody,
  BookingPlan,
  BookingPlanBody,
  BulkBooking,
  BulkBookingBody,
  MadeBooking,
  MoveBody,
  ReasonBody,
  WalkIn,
  WalkInBody,
} from '../../contract/test-days/bookings.ts'
import { BookingBody, BookingPage, BookingState } from '../../contract/test-days/test-days.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addBooking } from '../services/bookings/add-booking.ts'
import { addWalkIn } from '../services/bookings/add-walk-in.ts'
import { bookInBulk } from '../services/bookings/book-in-bulk.ts'
import { findBookings } from '../services/bookings/find-bookings.ts'
import { cancelBooking, markBooking } from '../services/bookings/mark-booking.ts'
import { moveBooking } from '../services/bookings/move-booking.ts'
import { planBookings } from '../services/bookings/plan-bookings.ts'

const ById = z.strictObject({ id: Uuid })

export const bookingRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/bookings',
    config: { token: 'test-days:read' },
    schema: {
      operationId: 'listBookings',
      summary: 'Bookings, in order of day',
      tags: ['events'],
      querystring: z.strictObject({
        ...Page,
        testDayId: Uuid.optional(),
        candidateId: Uuid.optional(),
        from: PlainDate.optional().describe('First day.'),
        state: z
          .enum([...BookingState.options, 'all'])
          .optional()
          .describe('Left out: all but cancelled ones.'),
      }),
      response: { 200: BookingPage, ...failures },
    },
    handler: (request) => findBookings(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/test-days/:id/bookings',
    schema: {
      operationId: 'addBooking',
      summary: 'Book a candidate for a standard on a test day',
      tags: ['events'],
      params: ById,
      body: BookingBody,
      response: { 201: MadeBooking, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addBooking(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'PUT',
    url: '/api/test-days/:id/walk-ins/:bookingId',
    schema: {
      operationId: 'addWalkIn',
      summary: 'Book somebody who came without a booking, under the id of the grader’s device',
      tags: ['events'],
      params: z.strictObject({ id: Uuid, bookingId: Uuid }),
      body: WalkInBody,
      response: { 200: WalkIn, ...failures, ...notFound, ...conflict },
    },
    handler: (request) =>
      addWalkIn(context, actorOf(request), request.params.id, request.params.bookingId, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/bookings/plan',
    schema: {
      operationId: 'planBookings',
      summary: 'Who would get which free slot, and what is in the way',
      tags: ['events'],
      body: BookingPlanBody,
      response: { 200: BookingPlan, ...failures },
    },
    handler: (request) => planBookings(context, actorOf(request), request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/bookings/bulk',
    schema: {
      operationId: 'bookInBulk',
      summary: 'Book many candidates at once, each in a slot',
      tags: ['events'],
      body: BulkBookingBody,
      response: { 200: BulkBooking, ...failures, ...conflict },
    },
    handler: (request) => bookInBulk(context, actorOf(request), request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/bookings/:id/move',
    schema: {
      operationId: 'moveBooking',
      summary: 'Move a booking to another slot or test day',
      tags: ['events'],
      params: ById,
      body: MoveBody,
      response: { 200: MadeBooking, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => moveBooking(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/bookings/:id/cancel',
    schema: {
      operationId: 'cancelBooking',
      summary: 'Cancel a booking',
      tags: ['events'],
      params: ById,
      body: ReasonBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => cancelBooking(context, actorOf(request), request.params.id, request.body.reason),
  })

  app.route({
    method: 'POST',
    url: '/api/bookings/:id/mark',
    schema: {
      operationId: 'markBooking',
      summary: 'Mark how a booking went',
      tags: ['events'],
      params: ById,
      body: BookingMarkBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => markBooking(context, actorOf(request), request.params.id, request.body),
  })
}

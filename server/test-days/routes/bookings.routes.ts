import { Created, IdParams } from '../../contract/common.ts'
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
  WalkInParams,
} from '../../contract/test-days/bookings.ts'
import * as endpoints from '../../contract/test-days/endpoints.ts'
import { BookingBody, BookingPage, BookingQuery } from '../../contract/test-days/test-days.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addBooking } from '../services/bookings/add-booking.ts'
import { addWalkIn } from '../services/bookings/add-walk-in.ts'
import { bookInBulk } from '../services/bookings/book-in-bulk.ts'
import { findBookings } from '../services/bookings/find-bookings.ts'
import { cancelBooking, markBooking } from '../services/bookings/mark-booking.ts'
import { moveBooking } from '../services/bookings/move-booking.ts'
import { planBookings } from '../services/bookings/plan-bookings.ts'

export const bookingRoutes: Routes = (app, context) => {
  addSingle(app, context)
  addBulk(app, context)
  addOutcomes(app, context)
}

const addSingle: Routes = (app, context) => {
  route(app, endpoints.listBookings, {
    config: { token: 'test-days:read' },
    schema: {
      operationId: 'listBookings',
      summary: 'Bookings, in order of day',
      tags: ['events'],
      querystring: BookingQuery,
      response: { 200: BookingPage, ...failures },
    },
    handler: (request) => findBookings(context, actorOf(request), request.query),
  })

  route(app, endpoints.addBooking, {
    schema: {
      operationId: 'addBooking',
      summary: 'Book a candidate for a standard on a test day',
      tags: ['events'],
      params: IdParams,
      body: BookingBody,
      response: { 201: MadeBooking, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addBooking(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.addWalkIn, {
    schema: {
      operationId: 'addWalkIn',
      summary: 'Book somebody who came without a booking, under the id of the grader’s device',
      tags: ['events'],
      params: WalkInParams,
      body: WalkInBody,
      response: { 200: WalkIn, ...failures, ...notFound, ...conflict },
    },
    handler: (request) =>
      addWalkIn(context, actorOf(request), request.params.id, request.params.bookingId, request.body),
  })

  route(app, endpoints.moveBooking, {
    schema: {
      operationId: 'moveBooking',
      summary: 'Move a booking to another slot or test day',
      tags: ['events'],
      params: IdParams,
      body: MoveBody,
      response: { 200: MadeBooking, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => moveBooking(context, actorOf(request), request.params.id, request.body),
  })
}

const addBulk: Routes = (app, context) => {
  route(app, endpoints.planBookings, {
    schema: {
      operationId: 'planBookings',
      summary: 'Who would get which free slot, and what is in the way',
      tags: ['events'],
      body: BookingPlanBody,
      response: { 200: BookingPlan, ...failures },
    },
    handler: (request) => planBookings(context, actorOf(request), request.body),
  })

  route(app, endpoints.bookInBulk, {
    schema: {
      operationId: 'bookInBulk',
      summary: 'Book many candidates at once, each in a slot',
      tags: ['events'],
      body: BulkBookingBody,
      response: { 200: BulkBooking, ...failures, ...conflict },
    },
    handler: (request) => bookInBulk(context, actorOf(request), request.body),
  })
}

const addOutcomes: Routes = (app, context) => {
  route(app, endpoints.cancelBooking, {
    schema: {
      operationId: 'cancelBooking',
      summary: 'Cancel a booking',
      tags: ['events'],
      params: IdParams,
      body: ReasonBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => cancelBooking(context, actorOf(request), request.params.id, request.body.reason),
  })

  route(app, endpoints.markBooking, {
    schema: {
      operationId: 'markBooking',
      summary: 'Mark how a booking went',
      tags: ['events'],
      params: IdParams,
      body: BookingMarkBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => markBooking(context, actorOf(request), request.params.id, request.body),
  })
}

import { z } from 'zod'
import { Created, Page, PlainDate, Uuid } from '../contract/common.ts'
import { BookingBody, BookingPage, TestDayBody, TestDayPage } from '../contract/test-days.ts'
import { actorOf } from '../plugins/session.ts'
import { addBooking, findBookings } from '../services/events/bookings.ts'
import { createTestDay, findTestDays } from '../services/events/test-days.ts'
import { conflict, failures, notFound } from './failures.ts'
import type { Routes } from './routes.ts'

export const eventRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/test-days',
    schema: {
      operationId: 'listTestDays',
      summary: 'Test days, latest first',
      tags: ['events'],
      querystring: z.strictObject(Page),
      response: { 200: TestDayPage, ...failures },
    },
    handler: (request) => findTestDays(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/test-days',
    schema: {
      operationId: 'createTestDay',
      summary: 'Plan a test day',
      tags: ['events'],
      body: TestDayBody,
      response: { 201: Created, ...failures },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await createTestDay(context, actorOf(request), request.body)),
  })

  app.route({
    method: 'POST',
    url: '/api/test-days/:id/bookings',
    schema: {
      operationId: 'addBooking',
      summary: 'Book a candidate for a standard on a test day',
      tags: ['events'],
      params: z.strictObject({ id: Uuid }),
      body: BookingBody,
      response: { 201: Created, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addBooking(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'GET',
    url: '/api/bookings',
    schema: {
      operationId: 'listBookings',
      summary: 'Bookings, in order of day',
      tags: ['events'],
      querystring: z.strictObject({
        ...Page,
        testDayId: Uuid.optional(),
        candidateId: Uuid.optional(),
        from: PlainDate.optional().describe('First day.'),
      }),
      response: { 200: BookingPage, ...failures },
    },
    handler: (request) => findBookings(context, actorOf(request), request.query),
  })
}

import { z } from 'zod'
import { Created, IdParams } from '../../contract/common.ts'
import { BookingPlan, CallOff, CallOffBody, MadeBooking } from '../../contract/test-days/bookings.ts'
import * as endpoints from '../../contract/test-days/endpoints.ts'
import {
  MadeSlots,
  SlotChange,
  SlotPage,
  SlotQuery,
  SlotsBody,
  TestDayBody,
  TestDayChange,
  TestDayDetail,
  TestDayPage,
  TestDayQuery,
} from '../../contract/test-days/test-days.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { callOffDay, planCallOff } from '../services/bookings/call-off-day.ts'
import { changeSlotGrader } from '../services/bookings/change-slot.ts'
import { changeTestDay } from '../services/change-test-day.ts'
import { findSlots } from '../services/find-slots.ts'
import { getTestDay } from '../services/get-test-day.ts'
import { addSlots, removeSlot } from '../services/slots.ts'
import { createTestDay, findTestDays } from '../services/test-days.ts'

export const testDayRoutes: Routes = (app, context) => {
  addDays(app, context)
  addCallingOff(app, context)
  addSlotRoutes(app, context)
}

const addDays: Routes = (app, context) => {
  route(app, endpoints.listTestDays, {
    config: { token: 'test-days:read' },
    schema: {
      operationId: 'listTestDays',
      summary: 'Test days, latest first',
      tags: ['events'],
      querystring: TestDayQuery,
      response: { 200: TestDayPage, ...failures, ...notFound },
    },
    handler: (request) => findTestDays(context, actorOf(request), request.query),
  })

  route(app, endpoints.createTestDay, {
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

  route(app, endpoints.getTestDay, {
    config: { token: 'test-days:read' },
    schema: {
      operationId: 'getTestDay',
      summary: 'One test day with its slots by time',
      tags: ['events'],
      params: IdParams,
      response: { 200: TestDayDetail, ...failures, ...notFound },
    },
    handler: (request) => getTestDay(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.changeTestDay, {
    schema: {
      operationId: 'changeTestDay',
      summary: 'Change place or day of a test day on which nothing took place',
      tags: ['events'],
      params: IdParams,
      body: TestDayChange,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeTestDay(context, actorOf(request), request.params.id, request.body),
  })
}

const addCallingOff: Routes = (app, context) => {
  route(app, endpoints.planCallOff, {
    schema: {
      operationId: 'planCallOff',
      summary: 'Where everybody booked would go if the day were called off',
      tags: ['events'],
      params: IdParams,
      response: { 200: BookingPlan, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => planCallOff(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.callOffTestDay, {
    schema: {
      operationId: 'callOffTestDay',
      summary: 'Call a whole test day off, and book everybody anew',
      tags: ['events'],
      params: IdParams,
      body: CallOffBody,
      response: { 200: CallOff, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => callOffDay(context, actorOf(request), request.params.id, request.body),
  })
}

const addSlotRoutes: Routes = (app, context) => {
  route(app, endpoints.listSlots, {
    config: { token: 'test-days:read' },
    schema: {
      operationId: 'listSlots',
      summary: 'Slots of test days that take place, in order of time',
      tags: ['events'],
      querystring: SlotQuery,
      response: { 200: SlotPage, ...failures, ...notFound },
    },
    handler: (request) => findSlots(context, actorOf(request), request.query),
  })

  route(app, endpoints.addSlots, {
    schema: {
      operationId: 'addSlots',
      summary: 'Make slots of a test day, for each grader one after the other',
      tags: ['events'],
      params: IdParams,
      body: SlotsBody,
      response: { 201: MadeSlots, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addSlots(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.changeSlot, {
    schema: {
      operationId: 'changeSlot',
      summary: 'Say who grades in a slot, and so the booking in it',
      tags: ['events'],
      params: IdParams,
      body: SlotChange,
      response: { 200: MadeBooking, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeSlotGrader(context, actorOf(request), request.params.id, request.body.graderId),
  })

  route(app, endpoints.removeSlot, {
    schema: {
      operationId: 'removeSlot',
      summary: 'Remove a slot nobody is booked in',
      tags: ['events'],
      params: IdParams,
      response: { 204: z.null().describe('It is gone.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await removeSlot(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}

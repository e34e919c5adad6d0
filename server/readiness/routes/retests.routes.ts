import { z } from 'zod'
import { Created, Page, PlainDate, Uuid } from '../../contract/common.ts'
import { Backlog, DueMoveBody, KeptGoPage } from '../../contract/readiness/retests.ts'
import { RetestPage } from '../../contract/standards/certifications.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findKeptGos, getBacklog } from '../services/retests/backlog.ts'
import { moveDueDay } from '../services/retests/move-due-day.ts'
import { findRetests } from '../services/retests.ts'

const UnitDay = { asOf: PlainDate.optional().describe('Left out: today.'), unitId: Uuid.optional() }

export const retestRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/retests',
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'listRetests',
      summary: 'The retests open as of a day, by due date',
      tags: ['dashboards'],
      querystring: z.strictObject({ ...Page, ...UnitDay, soldierId: Uuid.optional() }),
      response: { 200: RetestPage, ...failures, ...notFound },
    },
    handler: (request) => findRetests(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/retests/backlog',
    schema: {
      operationId: 'getBacklog',
      summary: 'Size of the backlog of retests at the end of each month, and on the day itself',
      tags: ['dashboards'],
      querystring: z.strictObject({ ...UnitDay, months: z.coerce.number().int().min(1).max(60).default(18) }),
      response: { 200: Backlog, ...failures, ...notFound },
    },
    handler: (request) => getBacklog(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/kept-gos',
    schema: {
      operationId: 'listKeptGos',
      summary: 'GOs kept toward a certification that stop counting soon',
      tags: ['dashboards'],
      querystring: z.strictObject({
        ...Page,
        ...UnitDay,
        days: z.coerce.number().int().min(0).max(366).default(30).describe('Within so many days from then.'),
      }),
      response: { 200: KeptGoPage, ...failures, ...notFound },
    },
    handler: (request) => findKeptGos(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/due-days',
    schema: {
      operationId: 'moveDueDay',
      summary: 'Give an open retest another due day, with a reason',
      tags: ['people'],
      params: z.strictObject({ id: Uuid }),
      body: DueMoveBody,
      response: { 201: Created, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await moveDueDay(context, actorOf(request), request.params.id, request.body)),
  })
}

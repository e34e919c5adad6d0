import { Created, IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/readiness/endpoints.ts'
import {
  Backlog,
  BacklogQuery,
  DueMoveBody,
  KeptGoPage,
  KeptGoQuery,
  RetestQuery,
} from '../../contract/readiness/retests.ts'
import { RetestPage } from '../../contract/standards/certifications.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findKeptGos, getBacklog } from '../services/retests/backlog.ts'
import { moveDueDay } from '../services/retests/move-due-day.ts'
import { findRetests } from '../services/retests.ts'

export const retestRoutes: Routes = (app, context) => {
  route(app, endpoints.listRetests, {
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'listRetests',
      summary: 'The retests open as of a day, by due date',
      tags: ['dashboards'],
      querystring: RetestQuery,
      response: { 200: RetestPage, ...failures, ...notFound },
    },
    handler: (request) => findRetests(context, actorOf(request), request.query),
  })

  route(app, endpoints.getBacklog, {
    schema: {
      operationId: 'getBacklog',
      summary: 'Size of the backlog of retests at the end of each month, and on the day itself',
      tags: ['dashboards'],
      querystring: BacklogQuery,
      response: { 200: Backlog, ...failures, ...notFound },
    },
    handler: (request) => getBacklog(context, actorOf(request), request.query),
  })

  route(app, endpoints.listKeptGos, {
    schema: {
      operationId: 'listKeptGos',
      summary: 'GOs kept toward a certification that stop counting soon',
      tags: ['dashboards'],
      querystring: KeptGoQuery,
      response: { 200: KeptGoPage, ...failures, ...notFound },
    },
    handler: (request) => findKeptGos(context, actorOf(request), request.query),
  })

  route(app, endpoints.moveDueDay, {
    schema: {
      operationId: 'moveDueDay',
      summary: 'Give an open retest another due day, with a reason',
      tags: ['people'],
      params: IdParams,
      body: DueMoveBody,
      response: { 201: Created, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await moveDueDay(context, actorOf(request), request.params.id, request.body)),
  })
}

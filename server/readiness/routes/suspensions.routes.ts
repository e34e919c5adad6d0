import { Created, IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/readiness/endpoints.ts'
import { SuspensionPage, SuspensionQuery } from '../../contract/readiness/suspensions.ts'
import { LiftBody, ReviewBody, SuspensionBody } from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addReview } from '../services/suspensions/add-review.ts'
import { findSuspensions } from '../services/suspensions/find-suspensions.ts'
import { lift, suspend } from '../services/suspensions/suspensions.ts'

const response = { 201: Created, ...failures, ...notFound, ...conflict }

export const suspensionRoutes: Routes = (app, context) => {
  route(app, endpoints.listSuspensions, {
    schema: {
      operationId: 'listSuspensions',
      summary: 'Suspensions, those in force or to come first, then the latest lifted',
      tags: ['certifications'],
      querystring: SuspensionQuery,
      response: { 200: SuspensionPage, ...failures, ...notFound },
    },
    handler: (request) => findSuspensions(context, actorOf(request), request.query),
  })

  route(app, endpoints.addReview, {
    schema: {
      operationId: 'addReview',
      summary: 'Record the review that repeated NO-GOs call for',
      tags: ['certifications'],
      params: IdParams,
      body: ReviewBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addReview(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.suspend, {
    schema: {
      operationId: 'suspend',
      summary: 'Suspend a soldier’s certification from a day on',
      tags: ['certifications'],
      body: SuspensionBody,
      response,
    },
    handler: async (request, reply) => reply.code(201).send(await suspend(context, actorOf(request), request.body)),
  })

  route(app, endpoints.liftSuspension, {
    schema: {
      operationId: 'liftSuspension',
      summary: 'Lift a suspension from a day on',
      tags: ['certifications'],
      params: IdParams,
      body: LiftBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => lift(context, actorOf(request), request.params.id, request.body),
  })
}

import { Created, IdParams } from '../../contract/common.ts'
import { AppealBody, AppealDecisionBody, AppealPage, AppealQuery } from '../../contract/sheets/appeals.ts'
import * as endpoints from '../../contract/sheets/endpoints.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { appealSheet, decideAppeal, findAppeals } from '../services/appeals/appeals.ts'

export const appealRoutes: Routes = (app, context) => {
  route(app, endpoints.appealSheet, {
    schema: {
      operationId: 'appealSheet',
      summary: 'Contest a closed sheet, as its candidate or sponsor',
      tags: ['sheets'],
      params: IdParams,
      body: AppealBody,
      response: { 201: Created, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await appealSheet(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.listAppeals, {
    schema: {
      operationId: 'listAppeals',
      summary: 'Appeals, oldest first',
      tags: ['sheets'],
      querystring: AppealQuery,
      response: { 200: AppealPage, ...failures },
    },
    handler: (request) => findAppeals(context, actorOf(request), request.query),
  })

  route(app, endpoints.decideAppeal, {
    config: { confirmed: true },
    schema: {
      operationId: 'decideAppeal',
      summary: 'Uphold or dismiss an appeal',
      tags: ['sheets'],
      params: IdParams,
      body: AppealDecisionBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => decideAppeal(context, actorOf(request), request.params.id, request.body),
  })
}

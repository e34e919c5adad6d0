import { z } from 'zod'
import { Created, Uuid } from '../../contract/common.ts'
import { AppealBody, AppealDecisionBody, AppealPage, AppealQuery } from '../../contract/sheets/appeals.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { appealSheet, decideAppeal, findAppeals } from '../services/appeals/appeals.ts'

const Id = z.strictObject({ id: Uuid })

export const appealRoutes: Routes = (app, context) => {
  app.route({
    method: 'POST',
    url: '/api/sheets/:id/appeals',
    schema: {
      operationId: 'appealSheet',
      summary: 'Contest a closed sheet, as its candidate or sponsor',
      tags: ['sheets'],
      params: Id,
      body: AppealBody,
      response: { 201: Created, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await appealSheet(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'GET',
    url: '/api/appeals',
    schema: {
      operationId: 'listAppeals',
      summary: 'Appeals, oldest first',
      tags: ['sheets'],
      querystring: AppealQuery,
      response: { 200: AppealPage, ...failures },
    },
    handler: (request) => findAppeals(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/appeals/:id/decision',
    schema: {
      operationId: 'decideAppeal',
      summary: 'Uphold or dismiss an appeal',
      tags: ['sheets'],
      params: Id,
      body: AppealDecisionBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => decideAppeal(context, actorOf(request), request.params.id, request.body),
  })
}

import { z } from 'zod'
import * as endpoints from '../../contract/coaching/endpoints.ts'
import { PracticeBody, PracticePage } from '../../contract/coaching/practices.ts'
import { Created, IdParams, PageQuery } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findPractices, removePractice, storePractice } from '../services/practices.ts'

export const practiceRoutes: Routes = (app, context) => {
  route(app, endpoints.listPractices, {
    schema: {
      operationId: 'listPractices',
      summary: 'Practice of chosen measures with a candidate, the latest first',
      tags: ['coaching'],
      params: IdParams,
      querystring: PageQuery,
      response: { 200: PracticePage, ...failures, ...notFound },
    },
    handler: (request) => findPractices(context, actorOf(request), request.params.id, request.query),
  })

  route(app, endpoints.storePractice, {
    schema: {
      operationId: 'storePractice',
      summary: 'Store practice of chosen measures, once, under the client’s id',
      description: 'It is no grade sheet: it counts for no certification, retest or figure.',
      tags: ['coaching'],
      params: IdParams,
      body: PracticeBody,
      response: {
        200: Created.describe('It is stored already.'),
        201: Created,
        ...failures,
        ...notFound,
        ...conflict,
      },
    },
    handler: async (request, reply) => {
      const { id } = request.params
      const { created } = await storePractice(context, actorOf(request), id, request.body)
      return reply.code(created ? 201 : 200).send({ id })
    },
  })

  route(app, endpoints.removePractice, {
    schema: {
      operationId: 'removePractice',
      summary: 'Delete practice that was entered by mistake',
      tags: ['coaching'],
      params: IdParams,
      response: { 204: z.null(), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await removePractice(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}

import { z } from 'zod'
import { Created, IdParams, PageQuery } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import { UnitBody, UnitChangeBody, UnitPage } from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { changeUnit, createUnit, findUnits, removeUnit } from '../services/units.ts'

export const unitRoutes: Routes = (app, context) => {
  route(app, endpoints.listUnits, {
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listUnits',
      summary: 'The units, by name',
      tags: ['people'],
      querystring: PageQuery,
      response: { 200: UnitPage, ...failures },
    },
    handler: (request) => findUnits(context, actorOf(request), request.query),
  })

  route(app, endpoints.createUnit, {
    schema: {
      operationId: 'createUnit',
      summary: 'Add a unit to the tree',
      tags: ['people'],
      body: UnitBody,
      response: { 201: Created, ...failures },
    },
    handler: async (request, reply) => reply.code(201).send(await createUnit(context, actorOf(request), request.body)),
  })

  route(app, endpoints.changeUnit, {
    schema: {
      operationId: 'changeUnit',
      summary:
        'Rename a unit, change its level or time zone, or close it from a day on; what is on record stays as it is',
      tags: ['people'],
      params: IdParams,
      body: UnitChangeBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeUnit(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.removeUnit, {
    schema: {
      operationId: 'removeUnit',
      summary: 'Take a unit out of the tree that nothing names',
      tags: ['people'],
      params: IdParams,
      response: { 204: z.null().describe('Taken out.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await removeUnit(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}

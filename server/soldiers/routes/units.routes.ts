import { z } from 'zod'
import { Created, Page, Uuid } from '../../contract/common.ts'
import { UnitBody, UnitChangeBody, UnitPage } from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { changeUnit, createUnit, findUnits, removeUnit } from '../services/units.ts'

export const unitRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/units',
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listUnits',
      summary: 'The units, by name',
      tags: ['people'],
      querystring: z.strictObject(Page),
      response: { 200: UnitPage, ...failures },
    },
    handler: (request) => findUnits(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/units',
    schema: {
      operationId: 'createUnit',
      summary: 'Add a unit to the tree',
      tags: ['people'],
      body: UnitBody,
      response: { 201: Created, ...failures },
    },
    handler: async (request, reply) => reply.code(201).send(await createUnit(context, actorOf(request), request.body)),
  })

  app.route({
    method: 'PATCH',
    url: '/api/units/:id',
    schema: {
      operationId: 'changeUnit',
      summary:
        'Rename a unit, change its level or time zone, or close it from a day on; what is on record stays as it is',
      tags: ['people'],
      params: z.object({ id: Uuid }),
      body: UnitChangeBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeUnit(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'DELETE',
    url: '/api/units/:id',
    schema: {
      operationId: 'removeUnit',
      summary: 'Take a unit out of the tree that nothing names',
      tags: ['people'],
      params: z.object({ id: Uuid }),
      response: { 204: z.null().describe('Taken out.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await removeUnit(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}

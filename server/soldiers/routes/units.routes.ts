import { z } from 'zod'
import { Created, Page } from '../../contract/common.ts'
import { UnitBody, UnitPage } from '../../contract/soldiers/soldiers.ts'
import { failures } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { createUnit, findUnits } from '../services/units.ts'

export const unitRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/units',
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
}

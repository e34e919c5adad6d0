import * as endpoints from '../../contract/soldiers/endpoints.ts'
import { UnitLevels, UnitLevelsBody } from '../../contract/soldiers/levels.ts'
import { conflict, failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getLevels, saveLevels } from '../services/levels.ts'

export const levelRoutes: Routes = (app, context) => {
  route(app, endpoints.getUnitLevels, {
    config: { token: 'roster:read' },
    schema: {
      operationId: 'getUnitLevels',
      summary: 'What the levels of the tree of units are called, from the top down',
      tags: ['people'],
      response: { 200: UnitLevels, ...failures },
    },
    handler: (request) => getLevels(context, actorOf(request)),
  })

  route(app, endpoints.saveUnitLevels, {
    schema: {
      operationId: 'saveUnitLevels',
      summary: 'Say anew what the levels are called, as they were read last',
      tags: ['people'],
      body: UnitLevelsBody,
      response: { 200: UnitLevels, ...failures, ...conflict },
    },
    handler: (request) => saveLevels(context, actorOf(request), request.body),
  })
}

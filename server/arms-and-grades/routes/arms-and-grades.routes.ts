import { ArmsAndGrades, ArmsAndGradesBody, ArmsAndGradesUse } from '../../contract/arms-and-grades/arms-and-grades.ts'
import * as endpoints from '../../contract/arms-and-grades/endpoints.ts'
import { conflict, failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getLists, getUse, saveLists } from '../services/lists.ts'

export const armsAndGradesRoutes: Routes = (app, context) => {
  route(app, endpoints.getArmsAndGrades, {
    config: { token: 'standards:read' },
    schema: {
      operationId: 'getArmsAndGrades',
      summary: 'The grades and arms of the unit, in its own order',
      tags: ['people'],
      response: { 200: ArmsAndGrades, ...failures },
    },
    handler: (request) => getLists(context, actorOf(request)),
  })

  route(app, endpoints.saveArmsAndGrades, {
    schema: {
      operationId: 'saveArmsAndGrades',
      summary: 'Replace the lists of grades and arms, as they were read last',
      tags: ['people'],
      body: ArmsAndGradesBody,
      response: { 200: ArmsAndGrades, ...failures, ...conflict },
    },
    handler: (request) => saveLists(context, actorOf(request), request.body),
  })

  route(app, endpoints.getArmsAndGradesUse, {
    schema: {
      operationId: 'getArmsAndGradesUse',
      summary: 'How many have each grade and carry each arm today',
      tags: ['people'],
      response: { 200: ArmsAndGradesUse, ...failures },
    },
    handler: (request) => getUse(context, actorOf(request)),
  })
}

import { DayList, Identified, IdentifyBody } from '../../contract/test-days/day-list.ts'
import * as endpoints from '../../contract/test-days/endpoints.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getDayList } from '../services/get-day-list.ts'
import { identifySoldier } from '../services/identify-soldier.ts'

export const dayListRoutes: Routes = (app, context) => {
  route(app, endpoints.getDayList, {
    schema: {
      operationId: 'getDayList',
      summary: 'What a device keeps to grade without a network',
      tags: ['events'],
      response: { 200: DayList, ...failures },
    },
    handler: (request) => getDayList(context, actorOf(request)),
  })

  route(app, endpoints.identifySoldier, {
    schema: {
      operationId: 'identifySoldier',
      summary: 'Who was tested without a booking, by roster number and family name together; stores nothing',
      tags: ['events'],
      body: IdentifyBody,
      response: { 200: Identified, ...failures, ...notFound },
    },
    handler: (request) => identifySoldier(context, actorOf(request), request.body),
  })
}

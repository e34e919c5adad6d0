import { DayList, Identified, IdentifyBody } from '../../contract/test-days/day-list.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getDayList } from '../services/get-day-list.ts'
import { identifySoldier } from '../services/identify-soldier.ts'

export const dayListRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/day-list',
    schema: {
      operationId: 'getDayList',
      summary: 'What a device keeps to grade without a network',
      tags: ['events'],
      response: { 200: DayList, ...failures },
    },
    handler: (request) => getDayList(context, actorOf(request)),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/identify',
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

import { z } from 'zod'
import { Code, Page, PlainDate, Uuid } from '../../contract/common.ts'
import { LapsePage, ReadinessTrend, TrendQuery } from '../../contract/readiness/readiness.ts'
import { SuspensionPage } from '../../contract/readiness/suspensions.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findLapses } from '../services/lapses.ts'
import { getReadinessTrend } from '../services/readiness-trend.ts'
import { findSuspensions } from '../services/suspensions/find-suspensions.ts'

export const readinessRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/readiness/trend',
    schema: {
      operationId: 'getReadinessTrend',
      summary: 'Of those required, how many were certified at the end of each month',
      tags: ['dashboards'],
      querystring: TrendQuery,
      response: { 200: ReadinessTrend, ...failures, ...notFound },
    },
    handler: (request) => getReadinessTrend(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/readiness/lapses',
    schema: {
      operationId: 'listLapses',
      summary: 'Who is certified today and lapses by a day unless they renew, the first to lapse first',
      tags: ['dashboards'],
      querystring: z.strictObject({
        ...Page,
        unitId: Uuid.optional(),
        certification: Code.optional(),
        through: PlainDate.optional().describe('Left out: in three months.'),
      }),
      response: { 200: LapsePage, ...failures, ...notFound },
    },
    handler: (request) => findLapses(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/suspensions',
    schema: {
      operationId: 'listSuspensions',
      summary: 'Suspensions, those in force or to come first, then the latest lifted',
      tags: ['certifications'],
      querystring: z.strictObject({ ...Page, unitId: Uuid.optional(), soldierId: Uuid.optional() }),
      response: { 200: SuspensionPage, ...failures, ...notFound },
    },
    handler: (request) => findSuspensions(context, actorOf(request), request.query),
  })
}

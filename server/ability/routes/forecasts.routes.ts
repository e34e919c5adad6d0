import { z } from 'zod'
import { Forecasts, ListedForecasts, TestsAsked } from '../../contract/ability/forecasts.ts'
import { PlainDate, Uuid } from '../../contract/common.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getForecasts } from '../services/get-forecasts.ts'
import { listForecasts } from '../services/list-forecasts.ts'

export const forecastRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/forecasts',
    schema: {
      operationId: 'getForecasts',
      summary: 'The chance to pass the next test of each standard, as of a day, and what to drill first',
      tags: ['certifications'],
      params: z.strictObject({ id: Uuid }),
      querystring: z.strictObject({ asOf: PlainDate.optional() }),
      response: { 200: Forecasts, ...failures, ...notFound },
    },
    handler: (request) => getForecasts(context, actorOf(request), request.params.id, request.query),
  })
  app.route({
    method: 'GET',
    url: '/api/forecasts',
    schema: {
      operationId: 'listForecasts',
      summary: 'The chance to pass the next test, for many at once; in the order asked for, which is no ranking',
      tags: ['certifications'],
      querystring: z.strictObject({
        tests: TestsAsked,
        asOf: PlainDate.optional(),
        drill: z.enum(['true', 'false']).default('false').describe('With what to drill.'),
      }),
      response: { 200: ListedForecasts, ...failures },
    },
    handler: (request) => {
      const { drill, ...asked } = request.query
      return listForecasts(context, actorOf(request), { ...asked, drill: drill === 'true' })
    },
  })
}

import { z } from 'zod'
import { Forecasts } from '../../contract/ability/forecasts.ts'
import { PlainDate, Uuid } from '../../contract/common.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getForecasts } from '../services/get-forecasts.ts'

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
}

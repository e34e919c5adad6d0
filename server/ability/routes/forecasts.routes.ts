import * as endpoints from '../../contract/ability/endpoints.ts'
import { Forecasts, ForecastsQuery, ListedForecasts, ListedForecastsQuery } from '../../contract/ability/forecasts.ts'
import { IdParams } from '../../contract/common.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getForecasts } from '../services/get-forecasts.ts'
import { listForecasts } from '../services/list-forecasts.ts'

export const forecastRoutes: Routes = (app, context) => {
  route(app, endpoints.getForecasts, {
    schema: {
      operationId: 'getForecasts',
      summary: 'The chance to pass the next test of each standard, as of a day, and what to drill first',
      tags: ['certifications'],
      params: IdParams,
      querystring: ForecastsQuery,
      response: { 200: Forecasts, ...failures, ...notFound },
    },
    handler: (request) => getForecasts(context, actorOf(request), request.params.id, request.query),
  })
  route(app, endpoints.listForecasts, {
    schema: {
      operationId: 'listForecasts',
      summary: 'The chance to pass the next test, for many at once; in the order asked for, which is no ranking',
      tags: ['certifications'],
      querystring: ListedForecastsQuery,
      response: { 200: ListedForecasts, ...failures },
    },
    handler: (request) => {
      const { drill, ...asked } = request.query
      return listForecasts(context, actorOf(request), { ...asked, drill: drill === 'true' })
    },
  })
}

import * as endpoints from '../../contract/readiness-forecast/endpoints.ts'
import {
  ForecastDates,
  ForecastDatesQuery,
  ForecastQuery,
  PastReadiness,
  PastReadinessQuery,
  ReadinessForecast,
  WhatIf,
  WhatIfQuery,
} from '../../contract/readiness-forecast/readiness-forecast.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { forecastDates } from '../services/forecast-dates.ts'
import { forecastReadiness } from '../services/forecast-readiness.ts'
import { findPastReadiness } from '../services/past-readiness.ts'
import { whatIf } from '../services/what-if.ts'

export const readinessForecastRoutes: Routes = (app, context) => {
  route(app, endpoints.forecastReadiness, {
    schema: {
      operationId: 'forecastReadiness',
      summary: 'How many of those required will be certified on a day, given lapses, bookings and chances to pass',
      tags: ['dashboards'],
      querystring: ForecastQuery,
      response: { 200: ReadinessForecast, ...failures, ...notFound },
    },
    handler: (request) => forecastReadiness(context, actorOf(request), request.query),
  })

  route(app, endpoints.forecastDates, {
    schema: {
      operationId: 'forecastDates',
      summary: 'The same for the next days with ceremonies that call on a unit',
      tags: ['dashboards'],
      querystring: ForecastDatesQuery,
      response: { 200: ForecastDates, ...failures, ...notFound },
    },
    handler: (request) => forecastDates(context, actorOf(request), request.query),
  })

  route(app, endpoints.whatIf, {
    schema: {
      operationId: 'whatIf',
      summary: 'The same as things are booked, and as it would be with slots more or fewer, or graders away',
      tags: ['dashboards'],
      querystring: WhatIfQuery,
      response: { 200: WhatIf, ...failures, ...notFound },
    },
    handler: (request) => whatIf(context, actorOf(request), request.query),
  })

  route(app, endpoints.findPastReadiness, {
    schema: {
      operationId: 'findPastReadiness',
      summary: 'The forecasts of the last twelve month-ends for thirty days on, and what came',
      tags: ['dashboards'],
      querystring: PastReadinessQuery,
      response: { 200: PastReadiness, ...failures, ...notFound },
    },
    handler: (request) => findPastReadiness(context, actorOf(request), request.query),
  })
}

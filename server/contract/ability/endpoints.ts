import type { IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { Forecasts, ForecastsQuery, ListedForecasts, ListedForecastsQuery } from './forecasts.ts'

export const getForecasts = 'GET /api/soldiers/:id/forecasts' as Endpoint<{
  params: typeof IdParams
  query: typeof ForecastsQuery
  answer: typeof Forecasts
}>

export const listForecasts = 'GET /api/forecasts' as Endpoint<{
  query: typeof ListedForecastsQuery
  answer: typeof ListedForecasts
}>

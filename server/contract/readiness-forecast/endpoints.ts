import type { Endpoint } from '../endpoint.ts'
import type {
  ForecastDates,
  ForecastDatesQuery,
  ForecastQuery,
  PastReadiness,
  PastReadinessQuery,
  ReadinessForecast,
  WhatIf,
  WhatIfQuery,
} from './readiness-forecast.ts'

export const forecastReadiness = 'GET /api/readiness/forecast' as Endpoint<{
  query: typeof ForecastQuery
  answer: typeof ReadinessForecast
}>

export const forecastDates = 'GET /api/readiness/forecast/dates' as Endpoint<{
  query: typeof ForecastDatesQuery
  answer: typeof ForecastDates
}>

export const whatIf = 'GET /api/readiness/forecast/what-if' as Endpoint<{
  query: typeof WhatIfQuery
  answer: typeof WhatIf
}>

export const findPastReadiness = 'GET /api/readiness/forecast/past' as Endpoint<{
  query: typeof PastReadinessQuery
  answer: typeof PastReadiness
}>

import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type {
  ForecastDates,
  PastReadiness,
  ReadinessForecast,
  WhatIf,
} from '#contract/readiness-forecast/readiness-forecast.ts'
import { get } from '../client.ts'

interface Asked {
  unitId?: string | undefined
  certification: string
}

/** How many of those required will be certified on a day. */
export const readinessForecastQuery = (asked: Asked & { on: string }) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', asked],
    queryFn: () => get<typeof ReadinessForecast>('/readiness/forecast', { ...asked }),
    enabled: asked.certification !== '' && asked.on !== '',
    placeholderData: keepPreviousData,
  })

/** The same for the next days with ceremonies that call on a unit. */
export const forecastDatesQuery = (unitId: string | undefined) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', 'dates', unitId],
    queryFn: () => get<typeof ForecastDates>('/readiness/forecast/dates', { unitId }),
    placeholderData: keepPreviousData,
  })

/** The same as things are booked, and as it would be. */
export const whatIfQuery = (asked: Asked & { on: string; more: string; fewer: string }) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', 'what-if', asked],
    queryFn: () =>
      get<typeof WhatIf>('/readiness/forecast/what-if', {
        ...asked,
        more: asked.more || undefined,
        fewer: asked.fewer || undefined,
      }),
    enabled: asked.certification !== '' && (asked.more !== '' || asked.fewer !== ''),
    placeholderData: keepPreviousData,
  })

/** What such forecasts were worth at the last twelve month-ends. */
export const pastReadinessQuery = (asked: Asked) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', 'past', asked],
    queryFn: () => get<typeof PastReadiness>('/readiness/forecast/past', { ...asked }),
    enabled: asked.certification !== '',
    placeholderData: keepPreviousData,
  })

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

interface Supposed {
  more: string
  fewer: string
  away: string
  moved: string
  plan: string
}

/** The same as things are booked, and as it would be; what is '' is not supposed. */
export const whatIfQuery = ({ unitId, certification, on, ...supposed }: Asked & { on: string } & Supposed) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', 'what-if', { unitId, certification, on, ...supposed }],
    queryFn: () => {
      const changes = Object.fromEntries(Object.entries(supposed).map(([name, value]) => [name, value || undefined]))
      return get<typeof WhatIf>('/readiness/forecast/what-if', { unitId, certification, on, ...changes })
    },
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

import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/readiness-forecast/endpoints.ts'
import { call } from '../client.ts'

interface Asked {
  unitId?: string | undefined
  certification: string
}

/** How many of those required will be certified on a day. */
export const readinessForecastQuery = (asked: Asked & { on: string }) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', asked],
    queryFn: () => call(endpoints.forecastReadiness, { query: asked }),
    enabled: asked.certification !== '' && asked.on !== '',
    placeholderData: keepPreviousData,
  })

/** The same for the next days with ceremonies that call on a unit. */
export const forecastDatesQuery = (unitId: string | undefined) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', 'dates', unitId],
    queryFn: () => call(endpoints.forecastDates, { query: { unitId } }),
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
      return call(endpoints.whatIf, { query: { unitId, certification, on, ...changes } })
    },
    placeholderData: keepPreviousData,
  })

/** What such forecasts were worth at the last twelve month-ends. */
export const pastReadinessQuery = (asked: Asked) =>
  queryOptions({
    queryKey: ['readiness', 'forecast', 'past', asked],
    queryFn: () => call(endpoints.findPastReadiness, { query: asked }),
    enabled: asked.certification !== '',
    placeholderData: keepPreviousData,
  })

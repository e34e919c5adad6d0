import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/ability/endpoints.ts'
import { call } from '../client.ts'

/** The chance to pass the next test of each standard, today; empty for who is to grade the soldier. */
export const forecastsQuery = (soldierId: string) =>
  queryOptions({
    queryKey: ['coaching', soldierId, 'forecasts'],
    queryFn: () => call(endpoints.getForecasts, { params: { id: soldierId } }),
  })

/** Whose next test of what. */
export interface ForecastAsked {
  readonly soldierId: string
  readonly standard: string
}

/** As of a day, else today; with what to drill, else the chance alone. */
export interface HowAsked {
  readonly asOf?: string | undefined
  readonly drill?: boolean
}

/** The same for many at once, each asked for as "soldier:standard". */
export const listedForecastsQuery = (tests: readonly string[], { asOf, drill = false }: HowAsked) =>
  queryOptions({
    queryKey: ['coaching', 'forecasts', asOf, drill, ...tests],
    queryFn: () => call(endpoints.listForecasts, { query: { tests: tests.join(','), asOf, drill: String(drill) } }),
  })

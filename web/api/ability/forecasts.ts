import { queryOptions } from '@tanstack/react-query'
import type { Forecasts } from '#contract/ability/forecasts.ts'
import { get } from '../client.ts'

/** The chance to pass the next test of each standard, today; empty for who is to grade the soldier. */
export const forecastsQuery = (soldierId: string) =>
  queryOptions({
    queryKey: ['coaching', soldierId, 'forecasts'],
    queryFn: () => get<typeof Forecasts>(`/soldiers/${soldierId}/forecasts`),
  })

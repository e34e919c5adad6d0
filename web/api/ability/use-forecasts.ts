import { useQueries } from '@tanstack/react-query'
import type { ListedForecast } from '#contract/ability/forecasts.ts'
import { type ForecastAsked, type HowAsked, listedForecastsQuery } from './forecasts.ts'

/** The server answers so many in one question. */
const TOGETHER = 100

/** Forecasts for all rows of a list, a question a hundred. They come after the list and never hold it up. */
export function useForecasts(tests: readonly ForecastAsked[], how: HowAsked = {}) {
  const inOrder = [...new Set(tests.map(({ soldierId, standard }) => `${soldierId}:${standard}`))].sort()
  const pages = Array.from({ length: Math.ceil(inOrder.length / TOGETHER) }, (_, page) =>
    inOrder.slice(page * TOGETHER, (page + 1) * TOGETHER),
  )
  const found = useQueries({ queries: pages.map((page) => listedForecastsQuery(page, how)) })
  const items = new Map(
    found.flatMap(({ data }) => data?.items ?? []).map((one) => [`${one.soldierId}:${one.standard}`, one]),
  )
  return (soldierId: string, standard: string): ListedForecast | undefined => items.get(`${soldierId}:${standard}`)
}

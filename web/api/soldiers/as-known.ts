import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/soldiers/endpoints.ts'
import { call } from '../client.ts'

/** How a soldier stood on a day as it was known at the end of another, and how that looks now. */
export const asKnownQuery = (id: string, on: string, asOf: string) =>
  queryOptions({
    queryKey: ['soldiers', id, 'as-known', on, asOf],
    queryFn: () => call(endpoints.getAsKnown, { params: { id }, query: { on, asOf } }),
    placeholderData: keepPreviousData,
  })

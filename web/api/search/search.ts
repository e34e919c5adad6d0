import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/search/endpoints.ts'
import { call } from '../client.ts'

/** What begins with the words typed, of what one may see. */
export const searchQuery = (q: string) =>
  queryOptions({
    queryKey: ['search', q],
    queryFn: async () => (await call(endpoints.search, { query: { q } })).items,
    enabled: q !== '',
    placeholderData: keepPreviousData,
  })

import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { FoundPage } from '#contract/search/search.ts'
import { get } from '../client.ts'

/** What begins with the words typed, of what one may see. */
export const searchQuery = (q: string) =>
  queryOptions({
    queryKey: ['search', q],
    queryFn: async () => (await get<typeof FoundPage>('/search', { q })).items,
    enabled: q !== '',
    placeholderData: keepPreviousData,
  })

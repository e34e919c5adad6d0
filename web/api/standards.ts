import { queryOptions } from '@tanstack/react-query'
import type { StandardPage } from '#contract/standards.ts'
import { allPages } from './all-pages.ts'

/** Every version of every standard, whole. */
export const standardsQuery = queryOptions({
  queryKey: ['standards'],
  staleTime: 5 * 60_000,
  queryFn: () => allPages<typeof StandardPage>('/standards'),
})

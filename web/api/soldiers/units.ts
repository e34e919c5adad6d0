import { queryOptions } from '@tanstack/react-query'
import type { UnitPage } from '#contract/soldiers/soldiers.ts'
import { allPages } from '../all-pages.ts'

/** Every unit of the tree one may see. */
export const unitsQuery = queryOptions({
  queryKey: ['units'],
  staleTime: 5 * 60_000,
  queryFn: () => allPages<typeof UnitPage>('/units'),
})

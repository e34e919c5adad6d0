import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/soldiers/endpoints.ts'
import type { UnitLevelsBody } from '#contract/soldiers/levels.ts'
import { call } from '../client.ts'

/** What the levels of the tree of units are called. */
export const levelsQuery = queryOptions({
  queryKey: ['unit-levels'],
  staleTime: 5 * 60_000,
  queryFn: () => call(endpoints.getUnitLevels),
})

export const saveLevels = (body: UnitLevelsBody) => call(endpoints.saveUnitLevels, { body })

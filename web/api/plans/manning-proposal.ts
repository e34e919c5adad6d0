import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/plans/endpoints.ts'
import { call } from '../client.ts'

/** Who could stand at the short posts of a ceremony; asked for anew whenever the ceremony changes. */
export const manningProposalQuery = (id: string) =>
  queryOptions({
    queryKey: ['ceremonies', id, 'proposal'],
    queryFn: () => call(endpoints.proposeManning, { params: { id } }),
    enabled: id !== '',
    placeholderData: keepPreviousData,
  })

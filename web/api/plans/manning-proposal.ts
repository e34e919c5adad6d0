import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { ManningProposal } from '#contract/plans/manning.ts'
import { get } from '../client.ts'

/** Who could stand at the short posts of a ceremony; asked for anew whenever the ceremony changes. */
export const manningProposalQuery = (id: string) =>
  queryOptions({
    queryKey: ['ceremonies', id, 'proposal'],
    queryFn: () => get<typeof ManningProposal>(`/ceremonies/${id}/proposal`),
    enabled: id !== '',
    placeholderData: keepPreviousData,
  })

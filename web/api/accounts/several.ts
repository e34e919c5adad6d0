import { infiniteQueryOptions, keepPreviousData } from '@tanstack/react-query'
import * as endpoints from '#contract/accounts/endpoints.ts'
import type { InvitationsBody, WithoutQuery } from '#contract/accounts/several.ts'
import { call } from '../client.ts'

/** Who on the roster has no account, page after page. Forgotten with the accounts. */
export const withoutAccountQuery = (filters: Pick<WithoutQuery, 'unitId' | 'need' | 'q'>) =>
  infiniteQueryOptions({
    queryKey: ['accounts', 'without', filters],
    queryFn: ({ pageParam }) => call(endpoints.listSoldiersWithoutAccount, { query: { ...filters, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

/** Names to sign in with, like none that is taken; stores nothing. */
export const proposeAccountNames = (soldierIds: string[]) =>
  call(endpoints.proposeAccountNames, { body: { soldierIds } })

/** Makes all or none. */
export const inviteAccounts = (body: InvitationsBody) => call(endpoints.inviteAccounts, { body })

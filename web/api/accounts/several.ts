import { infiniteQueryOptions, keepPreviousData } from '@tanstack/react-query'
import type {
  InvitationLinks,
  InvitationsBody,
  ProposedNames,
  SoldierWithoutPage,
  WithoutQuery,
} from '#contract/accounts/several.ts'
import { get, send } from '../client.ts'

/** Who on the roster has no account, page after page. Forgotten with the accounts. */
export const withoutAccountQuery = (filters: Pick<WithoutQuery, 'unitId' | 'need'>) =>
  infiniteQueryOptions({
    queryKey: ['accounts', 'without', filters],
    queryFn: ({ pageParam }) => get<typeof SoldierWithoutPage>('/accounts/without', { ...filters, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

/** Names to sign in with, like none that is taken; stores nothing. */
export const proposeAccountNames = (soldierIds: readonly string[]) =>
  send<typeof ProposedNames>('POST', '/accounts/names', { soldierIds })

/** Makes all or none. */
export const inviteAccounts = (body: InvitationsBody) => send<typeof InvitationLinks>('POST', '/accounts/several', body)

import { infiniteQueryOptions, keepPreviousData, type QueryClient } from '@tanstack/react-query'
import type {
  AccountBody,
  AccountPage,
  AccountQuery,
  InvitationBody,
  InvitationLink,
} from '#contract/accounts/accounts.ts'
import type { Created } from '#contract/common.ts'
import { get, send } from '../client.ts'

/** The accounts, by name, page after page. */
export const accountsQuery = (filters: Pick<AccountQuery, 'q' | 'state'>) =>
  infiniteQueryOptions({
    queryKey: ['accounts', filters],
    queryFn: ({ pageParam }) => get<typeof AccountPage>('/accounts', { ...filters, after: pageParam }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const inviteAccount = (body: InvitationBody) => send<typeof InvitationLink>('POST', '/accounts', body)

/** Takes the password away, ends all sessions, and makes a new link. */
export const sendLinkAnew = (id: string) => send<typeof InvitationLink>('POST', `/accounts/${id}/link`, undefined)

export const changeAccount = (id: string, body: AccountBody) => send<typeof Created>('PUT', `/accounts/${id}`, body)

export const setAccountDisabled = (id: string, disabled: boolean) =>
  send<typeof Created>('PUT', `/accounts/${id}/disabled`, { disabled })

/** The lists are old after any change to an account. */
export const forgetAccounts = (client: QueryClient) => client.invalidateQueries({ queryKey: ['accounts'] })

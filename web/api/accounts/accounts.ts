import { infiniteQueryOptions, keepPreviousData, type QueryClient, queryOptions } from '@tanstack/react-query'
import type { AccountBody, AccountQuery, InvitationBody } from '#contract/accounts/accounts.ts'
import * as endpoints from '#contract/accounts/endpoints.ts'
import type { FactorRules } from '#contract/accounts/factors.ts'
import { call } from '../client.ts'

/** The accounts, by name, page after page. */
export const accountsQuery = (filters: Pick<AccountQuery, 'q' | 'state'>) =>
  infiniteQueryOptions({
    queryKey: ['accounts', filters],
    queryFn: ({ pageParam }) => call(endpoints.listAccounts, { query: { ...filters, after: pageParam } }),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: (page) => page.next ?? undefined,
    placeholderData: keepPreviousData,
  })

export const inviteAccount = (body: InvitationBody) => call(endpoints.inviteAccount, { body })

/** Takes the password away, ends all sessions, and makes a new link. */
export const sendLinkAnew = (id: string) => call(endpoints.sendLinkAnew, { params: { id } })

export const changeAccount = (id: string, body: AccountBody) => call(endpoints.changeAccount, { params: { id }, body })

export const setAccountDisabled = (id: string, disabled: boolean) =>
  call(endpoints.disableAccount, { params: { id }, body: { disabled } })

/** Takes all second factors of an account away, for a phone that is lost. */
export const resetFactors = (id: string, reason: string) =>
  call(endpoints.resetFactors, { params: { id }, body: { reason } })

/** Which roles need a second factor, and how many accounts have none yet. */
export const factorRulesQuery = queryOptions({
  queryKey: ['accounts', 'factor-rules'],
  queryFn: () => call(endpoints.listFactorRules),
})

export const changeFactorRules = (body: FactorRules) => call(endpoints.changeFactorRules, { body })

/** The lists are old after any change to an account. */
export const invalidateAccounts = (client: QueryClient) => client.invalidateQueries({ queryKey: ['accounts'] })

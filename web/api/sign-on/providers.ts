import { type QueryClient, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/sign-on/endpoints.ts'
import type { ProviderBody, TrialBody } from '#contract/sign-on/providers.ts'
import { call } from '../client.ts'

/** The providers, and how the sign-in page looks. */
export const providersQuery = queryOptions({
  queryKey: ['sign-on-providers'],
  queryFn: () => call(endpoints.listProviders),
})

export const putProvider = (id: string, body: ProviderBody) => call(endpoints.putProvider, { params: { id }, body })

export const testProvider = (id: string) => call(endpoints.testProvider, { params: { id } })

export const tryRules = (body: TrialBody) => call(endpoints.tryRules, { body })

export const foldPasswords = (foldsPasswords: boolean) => call(endpoints.foldPasswords, { body: { foldsPasswords } })

/** The list, and what the sign-in page was told, are old after any change. */
export const invalidateProviders = (client: QueryClient) =>
  Promise.all([
    client.invalidateQueries({ queryKey: providersQuery.queryKey }),
    client.invalidateQueries({ queryKey: ['health'] }),
    client.invalidateQueries({ queryKey: ['account', 'identities'] }),
  ])

import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/accounts/endpoints.ts'
import type { TokenBody } from '#contract/accounts/tokens.ts'
import { call } from '../client.ts'

/** One's tokens for scripts, by name. */
export const ownTokensQuery = queryOptions({
  queryKey: ['account', 'tokens'],
  queryFn: async () => (await call(endpoints.listOwnTokens)).items,
})

/** Makes a token; the answer has it, once. */
export const makeToken = (body: TokenBody) => call(endpoints.makeToken, { body })

export const revokeToken = (id: string) => call(endpoints.revokeToken, { params: { id } })

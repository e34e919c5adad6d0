import { queryOptions } from '@tanstack/react-query'
import type { MadeToken, ScriptTokenList, TokenBody } from '#contract/accounts/tokens.ts'
import { get, remove, send } from '../client.ts'

/** One's tokens for scripts, by name. */
export const ownTokensQuery = queryOptions({
  queryKey: ['account', 'tokens'],
  queryFn: async () => (await get<typeof ScriptTokenList>('/account/tokens')).items,
})

/** Makes a token; the answer has it, once. */
export const makeToken = (body: TokenBody) => send<typeof MadeToken>('POST', '/account/tokens', body)

export const revokeToken = (id: string) => remove(`/account/tokens/${id}`)

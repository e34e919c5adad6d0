import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/sign-on/endpoints.ts'
import type { LinkBody, SignOnBody, UnlinkBody } from '#contract/sign-on/sign-on.ts'
import { call } from '../client.ts'

/** Which providers answer just now. */
export const answeringQuery = queryOptions({
  queryKey: ['health', 'answering'],
  queryFn: async () => (await call(endpoints.listAnsweringProviders)).ids,
})

/** Where to go to sign in. */
export const beginSignOn = (body: SignOnBody) => call(endpoints.beginSignOn, { body })

/** Signs out; the answer says where the provider ends its own session. */
export const leave = () => call(endpoints.leave)

/** The providers one's account is linked with, or could be. */
export const ownIdentitiesQuery = queryOptions({
  queryKey: ['account', 'identities'],
  queryFn: () => call(endpoints.listOwnIdentities),
})

/** Where to go so that the account is linked with who signs in there. */
export const beginLink = (body: LinkBody) => call(endpoints.beginLink, { body })

/** Ends a link of one's own account, and the other sessions opened that way. */
export const unlinkOwn = (id: string, body: UnlinkBody) => call(endpoints.unlinkOwnIdentity, { params: { id }, body })

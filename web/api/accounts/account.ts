import { queryOptions } from '@tanstack/react-query'
import type { PasswordBody, WelcomeBody } from '#contract/accounts/accounts.ts'
import * as endpoints from '#contract/accounts/endpoints.ts'
import { call } from '../client.ts'

/** Where one is signed in: here, then last used first. */
export const ownSessionsQuery = queryOptions({
  queryKey: ['account', 'sessions'],
  queryFn: async () => (await call(endpoints.listOwnSessions)).items,
})

export const endOwnSession = (id: string) => call(endpoints.endOwnSession, { params: { id } })

/** Signs out everywhere, here too. */
export const endOwnSessions = () => call(endpoints.endOwnSessions)

export const changePassword = (body: PasswordBody) => call(endpoints.changePassword, { body })

/** Whom a one-time link is for. It is asked once, and its token is part of no key. */
export const lookAtLink = (token: string) => call(endpoints.lookAtLink, { body: { token } })

/** Chooses the password by a one-time link, which is the first step of signing in. */
export const acceptLink = (body: WelcomeBody) => call(endpoints.acceptLink, { body })

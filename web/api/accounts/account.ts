import { queryOptions } from '@tanstack/react-query'
import type {
  OwnSessionList,
  PasswordBody,
  PasswordChanged,
  Welcome,
  WelcomeBody,
} from '#contract/accounts/accounts.ts'
import type { Session } from '#contract/accounts/session.ts'
import { get, remove, send } from '../client.ts'

/** Where one is signed in: here, then last used first. */
export const ownSessionsQuery = queryOptions({
  queryKey: ['account', 'sessions'],
  queryFn: async () => (await get<typeof OwnSessionList>('/account/sessions')).items,
})

export const endOwnSession = (id: string) => remove(`/account/sessions/${id}`)

/** Signs out everywhere, here too. */
export const endOwnSessions = () => remove('/account/sessions')

export const changePassword = (body: PasswordBody) => send<typeof PasswordChanged>('PUT', '/account/password', body)

/** Whom a one-time link is for. It is asked once, and its token is part of no key. */
export const lookAtLink = (token: string) => send<typeof Welcome>('POST', '/welcome/look', { token })

/** Chooses the password by a one-time link and signs in. */
export const acceptLink = (body: WelcomeBody) => send<typeof Session>('POST', '/welcome', body)

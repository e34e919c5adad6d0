import { type QueryClient, queryOptions } from '@tanstack/react-query'
import { isolated } from '#calendar/isolate.ts'
import * as endpoints from '#contract/accounts/endpoints.ts'
import type { Session, SetupBody, SignInBody } from '#contract/accounts/session.ts'
import * as healthEndpoints from '#contract/health/endpoints.ts'
import { keepUnitZone } from '../../words/unit-zone.ts'
import { call } from '../client.ts'
import { ApiError } from '../errors.ts'

/** Times are those of the unit of whoever is signed in. */
const byTheirClock = <Who extends Session | null>(session: Who): Who => {
  keepUnitZone(session?.zone)
  return session
}

/** Who is signed in; throws an `ApiError` 401 when nobody is. */
export const askWhoIsSignedIn = async () => byTheirClock(await call(endpoints.whoAmI))

/** Who the page was handed to, as the server wrote it into it. */
const handedTo = (): Session | undefined => {
  const text = document.getElementById('session')?.textContent
  return text ? byTheirClock(JSON.parse(isolated(text)) as Session) : undefined
}

/** Who is signed in, or null. */
export const sessionQuery = queryOptions({
  queryKey: ['session'],
  initialData: handedTo,
  staleTime: Number.POSITIVE_INFINITY,
  queryFn: async (): Promise<Session | null> => {
    try {
      return await askWhoIsSignedIn()
    } catch (error) {
      if (error instanceof ApiError && error.status === 401) return null
      throw error
    }
  },
})

/** Whether the server answers, and in the demo which accounts it offers. */
export const healthQuery = queryOptions({
  queryKey: ['health'],
  staleTime: Number.POSITIVE_INFINITY,
  queryFn: () => call(healthEndpoints.getHealth),
})

/** The first step: who is signed in, or what second factor is still to come. */
export const signIn = (body: SignInBody) => call(endpoints.signIn, { body })

/** Makes the first account of an empty server, with the token of the link it printed. */
export const setUp = (body: SetupBody) => call(endpoints.makeFirstAccount, { body })

/** Puts who is signed in, or null, into the cache and takes out whatever the one before was shown. */
export const setSession = (client: QueryClient, session: Session | null): void => {
  client.setQueryData(sessionQuery.queryKey, byTheirClock(session))
  client.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'session' && queryKey[0] !== 'health' })
}

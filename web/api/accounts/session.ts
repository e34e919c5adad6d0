import { type QueryClient, queryOptions } from '@tanstack/react-query'
import { isolated } from '#calendar/isolate.ts'
import type { Health, Session, SetupBody, SignInBody } from '#contract/accounts/session.ts'
import { keepUnitZone } from '../../words/unit-zone.ts'
import { get, remove, send } from '../client.ts'
import { ApiError } from '../errors.ts'

/** Times are those of the unit of whoever is signed in. */
const byTheirClock = <Who extends Session | null>(session: Who): Who => {
  keepUnitZone(session?.zone)
  return session
}

/** Who is signed in; throws an `ApiError` 401 when nobody is. */
export const askWhoIsSignedIn = async () => byTheirClock(await get<typeof Session>('/session'))

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
  queryFn: () => get<typeof Health>('/health'),
})

export const signIn = (body: SignInBody) => send<typeof Session>('POST', '/session', body)

export const signOut = () => remove('/session')

/** Makes the first account of an empty server, with the token of the link it printed. */
export const setUp = (body: SetupBody) => send('POST', '/setup', body)

/** Puts who is signed in, or null, into the cache and takes out whatever the one before was shown. */
export const setSession = (client: QueryClient, session: Session | null): void => {
  client.setQueryData(sessionQuery.queryKey, byTheirClock(session))
  client.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'session' && queryKey[0] !== 'health' })
}

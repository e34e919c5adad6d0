import { MutationCache, QueryCache, QueryClient } from '@tanstack/react-query'
import { setSession } from './accounts/session.ts'
import { ApiError, NoAnswerError } from './errors.ts'

const MOST_RETRIES = 2
const STALE_MILLISECONDS = 30_000

/** The cache of answers. An answer 401 anywhere ends the session, which brings up the sign-in page. */
export const makeQueryClient = (): QueryClient => {
  const onError = (error: Error) => {
    if (error instanceof ApiError && error.status === 401) setSession(client, null)
  }
  const client: QueryClient = new QueryClient({
    queryCache: new QueryCache({ onError }),
    mutationCache: new MutationCache({ onError }),
    defaultOptions: {
      queries: {
        staleTime: STALE_MILLISECONDS,
        retry: (failures, error) => error instanceof NoAnswerError && failures < MOST_RETRIES,
        networkMode: 'always',
      },
      mutations: { networkMode: 'always' },
    },
  })
  return client
}

import { useQuery } from '@tanstack/react-query'
import type { Session } from '#contract/accounts/session.ts'
import { sessionQuery } from '../../api/accounts/session.ts'
import { deviceAccount } from './device-account.ts'
import { useKept } from './use-kept.ts'

/**
 * Who grades on this device: who is signed in; without the server, or after the session has run out, who signed in here
 * last. Null: nobody; undefined: not known yet. An expired session never stops a test.
 */
export const useAccount = (): Session | null | undefined => {
  const session = useQuery(sessionQuery)
  const { value: last } = useKept(deviceAccount)
  if (session.data) return session.data
  if (last) return last
  return last === null && !session.isPending ? null : undefined
}

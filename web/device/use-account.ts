import { useQuery } from '@tanstack/react-query'
import { useEffect } from 'react'
import type { Session } from '#contract/session.ts'
import { sessionQuery } from '../api/session.ts'
import { deviceAccount, rememberAccount } from './device-account.ts'

/**
 * Who grades on this device: who is signed in; without the server, or after the session has run out, who signed in here
 * last. Null: nobody; undefined: not known yet. An expired session never stops a test.
 */
export const useAccount = (): { account: Session | null | undefined; isSignedOut: boolean } => {
  const session = useQuery(sessionQuery)
  const signedIn = session.data
  useEffect(() => {
    if (signedIn) rememberAccount(signedIn)
  }, [signedIn])
  if (signedIn) return { account: signedIn, isSignedOut: false }
  const last = deviceAccount()
  if (last) return { account: last, isSignedOut: signedIn === null }
  return { account: session.isPending ? undefined : null, isSignedOut: signedIn === null }
}

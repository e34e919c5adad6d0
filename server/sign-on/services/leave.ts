import { unseal } from '../../accounts/services/sealed.ts'
import { signOut } from '../../accounts/services/sessions/sign-out.ts'
import type { Visitor } from '../../accounts/services/sessions/visitor.ts'
import { hashToken } from '../../accounts/services/token.ts'
import type { Context } from '../../context/context.ts'
import { AppError } from '../../errors.ts'
import { readProviderSession } from '../db/provider-sessions.db.ts'
import { readProvider } from '../db/providers.db.ts'
import { endAddress } from '../provider/end-address.ts'
import { problemWithProvider } from '../provider/provider-problem.ts'
import { clientOf, keyOf } from './provider-client.ts'
import { providersOf } from './providers-of.ts'

/**
 * Ends the session a browser holds the token of. Out: where to go so that the provider that opened it ends its own as well;
 * null where none did, or it does not say where, or does not answer: our own session is over all the same.
 */
export async function leave(context: Context, visitor: Visitor): Promise<{ address: string | null }> {
  const end = visitor.sessionToken === undefined ? null : await endOf(context, visitor.sessionToken)
  await signOut(context, visitor)
  if (end === null) return { address: null }
  try {
    const client = clientOf(context, end.provider)
    const providers = providersOf(context)
    return { address: endAddress(providers.configure(client, await providers.known(client.issuer)), end) }
  } catch (error) {
    if (problemWithProvider(error) === null && !(error instanceof AppError)) throw error
    return { address: null }
  }
}

/** What the provider of a session needs to end its own. */
async function endOf(context: Context, sessionToken: string) {
  const tokenHash = hashToken(sessionToken)
  const session = await readProviderSession(context.db, tokenHash)
  const provider = session && (await readProvider(context.db, session.providerId))
  const address = context.address()
  if (!provider?.enabled || address === null) return null
  const idToken = unseal(keyOf(context), session!.idToken, `ID token of ${tokenHash.toString('hex')}`)
  if (idToken === null) return null
  return { provider, idToken, returnAddress: `${address}/sign-in` }
}

import type { Context } from '../../context/context.ts'
import { AppError, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { endProviderSessions, takeLogoutToken } from '../db/provider-sessions.db.ts'
import { readProvider } from '../db/providers.db.ts'
import { ProviderSilent, problemWithProvider } from '../provider/provider-problem.ts'
import { readLogoutToken, type SignedOut } from '../provider/read-logout-token.ts'
import { providersOf } from './providers-of.ts'

/**
 * A provider says that somebody signed out there, or was signed out (Back-Channel Logout 1.0): the sessions it opened for them
 * end at once. Each such word is taken once. In: the provider the address is for, and its logout token. Throws `unavailable`,
 * which asks the provider to send it again, where its keys cannot be had just now.
 */
export async function endByProvider(
  context: Context,
  providerId: string,
  token: string,
  address: string,
): Promise<void> {
  const provider = await readProvider(context.db, providerId)
  if (!provider) throw notFound('address')
  const word = await readWord(context, provider, token)
  const author = { accountId: null, name: null, address, soldierId: null }
  await recorded(context, author, async (tx, note) => {
    if (!(await takeLogoutToken(tx, providerId, word, context.clock()))) throw refused('it was used before')
    for (const { accountId, ended } of await endProviderSessions(tx, providerId, word)) {
      const after = { by: provider.name, ended }
      note({ action: 'session.ended-by-provider', subject: { kind: 'account', id: accountId }, after })
    }
  })
}

async function readWord(
  context: Context,
  { issuer, clientId }: { issuer: string; clientId: string },
  token: string,
): Promise<SignedOut> {
  const providers = providersOf(context)
  const metadata = await providers.known(issuer).catch((error: unknown) => {
    throw problemWithProvider(error) === null ? error : notChecked()
  })
  try {
    const as = { issuer: metadata.issuer, clientId, now: context.clock() }
    return await readLogoutToken(token, providers.keysOf(metadata), as)
  } catch (error) {
    if (error instanceof ProviderSilent) throw notChecked()
    throw refused(error instanceof Error ? error.message : 'it cannot be read')
  }
}

const notChecked = (): AppError =>
  new AppError(
    'unavailable',
    'provider-silent',
    'The provider’s keys cannot be had just now, so its word cannot be checked. Send it again.',
  )

const refused = (why: string): AppError =>
  new AppError('malformed-request', 'logout-token-refused', `This logout token is not taken: ${why}.`)

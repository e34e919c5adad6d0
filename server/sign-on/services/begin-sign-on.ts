import { requirePresentPassword } from '../../accounts/services/present-password.ts'
import { refuseForDemo } from '../../accounts/services/refuse-for-demo.ts'
import { passAttempt } from '../../accounts/services/sessions/attempts.ts'
import type { Visitor } from '../../accounts/services/sessions/visitor.ts'
import { hashToken, newToken } from '../../accounts/services/token.ts'
import type { Context } from '../../context/context.ts'
import type { LinkBody, SignOnBody } from '../../contract/sign-on/sign-on.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { ownPath } from '../../domain/access/own-path.ts'
import { AppError, conflict, notFound } from '../../errors.ts'
import { type Attempt, insertAttempt } from '../db/attempts.db.ts'
import { listOwnIdentities } from '../db/identities.db.ts'
import { readProvider, type StoredProvider } from '../db/providers.db.ts'
import { beginExchange } from '../provider/exchange.ts'
import { problemWithProvider } from '../provider/provider-problem.ts'
import { clientOf, returnAddressOf } from './provider-client.ts'
import { providersOf } from './providers-of.ts'
import { requireOwnPassword } from './require-own-password.ts'

/** Somebody types their password there, and perhaps a second factor. */
export const ATTEMPT_MS = 600_000

/** What a browser is sent away with: the address, and the token its cookie holds until it is back. */
export interface Departure {
  readonly address: string
  readonly token: string
}

/** Sends a browser to a provider to sign in. In: how it named this server. */
export async function beginSignIn(
  context: Context,
  { providerId, returnPath, anew }: SignOnBody,
  visitor: Visitor,
  origin: string,
): Promise<Departure> {
  const provider = await enabledProvider(context, providerId)
  return depart(context, provider, origin, {
    anew,
    returnPath: ownPath(returnPath),
    sessionHash: visitor.sessionToken === undefined ? null : hashToken(visitor.sessionToken),
    linksAccountId: null,
  })
}

/** Sends a browser to a provider so that the account it is signed in with is linked; the present password is asked for. */
export async function beginLink(
  context: Context,
  actor: Actor,
  { providerId, password }: LinkBody,
  visitor: Visitor,
  origin: string,
): Promise<Departure> {
  refuseForDemo(context, actor.name)
  const provider = await enabledProvider(context, providerId)
  const links = await listOwnIdentities(context.db, actor.accountId)
  if (links.some((link) => link.providerId === providerId && link.id !== null)) {
    throw conflict('linked-already', `Your account is linked with ${provider.name} already. Unlink that first.`)
  }
  await requireOwnPassword(context, actor)
  const { counters } = await requirePresentPassword(context, actor, visitor, password, '/password')
  await inTransaction(context.db, (tx) => passAttempt(tx, counters))
  return depart(context, provider, origin, {
    anew: false,
    returnPath: '/account',
    sessionHash: hashToken(visitor.sessionToken ?? ''),
    linksAccountId: actor.accountId,
  })
}

async function enabledProvider(context: Context, id: string): Promise<StoredProvider> {
  const provider = await readProvider(context.db, id)
  if (!provider?.enabled) throw notFound('way to sign in')
  return provider
}

async function depart(
  context: Context,
  provider: StoredProvider,
  origin: string,
  { anew, ...attempt }: Pick<Attempt, 'returnPath' | 'sessionHash' | 'linksAccountId'> & { readonly anew: boolean },
): Promise<Departure> {
  const returnAddress = returnAddressOf(context, provider.id)
  if (origin !== new URL(returnAddress).origin) throw elsewhere(provider.name, new URL(returnAddress).origin)
  const client = clientOf(context, provider)
  const providers = providersOf(context)
  const metadata = await providers.discover(provider.issuer).catch((error: unknown) => {
    throw problemWithProvider(error) === null ? error : silent(provider.name)
  })
  const { scopes } = provider
  const { address, secrets } = await beginExchange(providers.configure(client, metadata), {
    returnAddress,
    scopes,
    anew,
  })
  const token = newToken()
  const now = context.clock()
  const expiresAt = new Date(now.getTime() + ATTEMPT_MS)
  await inTransaction(context.db, (tx) =>
    insertAttempt(tx, hashToken(token), { providerId: provider.id, ...secrets, ...attempt, expiresAt }, now),
  )
  return { address, token }
}

const silent = (name: string): AppError =>
  new AppError(
    'unavailable',
    'provider-silent',
    `${name} does not answer just now. Try again later, or sign in with your password.`,
  )

/** The cookie that knows the way back is this host's alone. */
const elsewhere = (name: string, address: string): AppError =>
  conflict('another-address', `${name} sends people back to ${address}. Open Reviewstand there, and sign in there.`)

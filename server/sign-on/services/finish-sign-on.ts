import { lockAccount, lockAccounts } from '../../accounts/db/account-changes.db.ts'
import { deleteSession, readSession } from '../../accounts/db/sessions.db.ts'
import { seal } from '../../accounts/services/sealed.ts'
import { completeSignOn } from '../../accounts/services/sessions/complete-sign-in.ts'
import type { Keys } from '../../accounts/services/sessions/open-session.ts'
import { expiredBefore } from '../../accounts/services/sessions/session-life.ts'
import type { Visitor } from '../../accounts/services/sessions/visitor.ts'
import { hashToken } from '../../accounts/services/token.ts'
import type { Context } from '../../context/context.ts'
import type { SignOnProblem } from '../../contract/sign-on/problems.ts'
import { inTransaction } from '../../db/transaction.ts'
import { AppError } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { type Attempt, takeAttempt } from '../db/attempts.db.ts'
import { type Identity, insertIdentity, readIdentity } from '../db/identities.db.ts'
import { insertProviderSession } from '../db/provider-sessions.db.ts'
import { readProvider, type StoredProvider } from '../db/providers.db.ts'
import { finishExchange, type SignedIn } from '../provider/exchange.ts'
import { problemWithProvider } from '../provider/provider-problem.ts'
import { followRules, makeAccountByRules } from './account-by-rules.ts'
import { clientOf, keyOf, returnAddressOf } from './provider-client.ts'
import { providersOf } from './providers-of.ts'

/** A browser that comes back from a provider. */
interface Returning {
  /** Of the address it came to. */
  readonly providerId: string
  /** What the provider gave it to bring, as it stands in the address: `?code=…`. */
  readonly search: string
  /** What it left with. */
  readonly token: string | undefined
  readonly visitor: Visitor
}

/** Where it goes on, with the keys of a session where one was opened. */
export interface Arrival {
  readonly path: string
  readonly keys?: Keys
}

/** Finishes what `beginSignIn` or `beginLink` began. What it left with serves once, whatever comes of it. */
export async function finishSignOn(context: Context, returning: Returning): Promise<Arrival> {
  const { token, providerId } = returning
  const attempt =
    token === undefined
      ? null
      : await inTransaction(context.db, (tx) => takeAttempt(tx, hashToken(token), context.clock()))
  if (attempt === null) return { path: '/sign-in?signOn=begin-again' }
  const done = await finish(context, attempt, returning)
  if (typeof done !== 'string') return { path: attempt.returnPath, ...done }
  const page = attempt.linksAccountId === null ? '/sign-in' : '/account'
  return { path: `${page}?${new URLSearchParams({ signOn: done, provider: providerId })}` }
}

async function finish(
  context: Context,
  attempt: Attempt,
  returning: Returning,
): Promise<{ keys?: Keys } | SignOnProblem> {
  if (attempt.providerId !== returning.providerId) return 'other-provider'
  const provider = await readProvider(context.db, attempt.providerId)
  if (!provider?.enabled) return 'switched-off'
  const who = await whoCameBack(context, provider, attempt, returning)
  if (typeof who !== 'string') {
    if (attempt.linksAccountId === null) return signIn(context, provider, attempt, who, returning.visitor)
    return link(context, provider, attempt, who, returning.visitor.address)
  }
  await noteRefusal(context, provider, null, who, returning.visitor)
  return who
}

async function whoCameBack(
  context: Context,
  provider: StoredProvider,
  attempt: Attempt,
  { search }: Returning,
): Promise<SignedIn | SignOnProblem> {
  try {
    const cameBackTo = new URL(returnAddressOf(context, provider.id))
    cameBackTo.search = search
    const providers = providersOf(context)
    const configuration = providers.configure(clientOf(context, provider), await providers.known(provider.issuer))
    const asksMore = provider.makesAccounts || provider.rulesEachTime
    return await finishExchange(configuration, cameBackTo, attempt, { now: context.clock(), asksMore })
  } catch (error) {
    // A secret that was sealed with another key shows the provider nothing.
    const problem =
      error instanceof AppError && error.kind === 'conflict' ? 'client-refused' : problemWithProvider(error)
    if (problem === null) throw error
    return problem
  }
}

async function signIn(
  context: Context,
  provider: StoredProvider,
  { sessionHash }: Attempt,
  who: SignedIn,
  visitor: Visitor,
): Promise<{ keys: Keys } | SignOnProblem> {
  const found = await readIdentity(context.db, provider.id, who.subject)
  const identity = found ?? (await makeAccountByRules(context, provider, who, visitor.address))
  if (typeof identity === 'string') {
    await noteRefusal(context, provider, null, identity, visitor)
    return identity
  }
  const { accountId, name } = identity
  const author = { accountId, name, address: visitor.address, soldierId: null }
  const opened = await recorded(context, author, async (tx, note) => {
    await lockAccounts(tx)
    const account = await lockAccount(tx, accountId)
    if (!account || account.isDisabled) return 'account-closed'
    const follows = identity.followsRules && provider.rulesEachTime
    if (follows && !(await followRules(tx, note, provider, accountId, who.claims))) return 'no-role'
    if (sessionHash) await deleteSession(tx, Buffer.from(sessionHash))
    const now = context.clock()
    const fresh = { ...visitor, sessionToken: undefined }
    const keys = await completeSignOn(
      { tx, note },
      {
        accountId,
        by: provider.name,
        visitor: fresh,
        now,
        shownAt: who.shownAt,
      },
    )
    const tokenHash = hashToken(keys.sessionToken)
    const idToken = seal(keyOf(context), who.idToken, `ID token of ${tokenHash.toString('hex')}`)
    await insertProviderSession(tx, { tokenHash, identityId: identity.id, providerSid: who.providerSid, idToken })
    return { keys }
  })
  if (typeof opened === 'string') await noteRefusal(context, provider, identity, opened, visitor)
  return opened
}

/** Links the account of the session the browser left with, while that goes on. */
async function link(
  context: Context,
  provider: StoredProvider,
  { sessionHash }: Attempt,
  { subject }: SignedIn,
  address: string,
): Promise<Record<never, never> | SignOnProblem> {
  const session = sessionHash && (await readSession(context.db, Buffer.from(sessionHash)))
  const { seenBefore, createdBefore } = expiredBefore(context.clock())
  if (!session || session.seenAt < seenBefore || session.createdAt < createdBefore) return 'session-ended'
  const { accountId, name } = session
  return recorded(context, { accountId, name, address, soldierId: null }, async (tx, note) => {
    await lockAccount(tx, accountId)
    const linkedAt = context.clock()
    const row = { providerId: provider.id, subject, accountId, followsRules: false, linkedAt }
    if ((await insertIdentity(tx, row)) === null) return 'linked-elsewhere'
    note({ action: 'account.linked', subject: { kind: 'account', id: accountId }, after: { with: provider.name } })
    return {}
  })
}

async function noteRefusal(
  context: Context,
  { name }: StoredProvider,
  identity: Identity | null,
  problem: SignOnProblem,
  { address }: Visitor,
): Promise<void> {
  await recorded(context, { accountId: null, name: null, address, soldierId: null }, async (_tx, note) => {
    const subject = { kind: 'account', id: identity?.accountId ?? null } as const
    note({ action: 'session.refused', subject, after: { by: name, why: problem } })
  })
}

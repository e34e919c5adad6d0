import type { Context } from '../../../context/context.ts'
import { today } from '../../../context/today.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { needsFactor } from '../../../domain/access/factor-rules.ts'
import type { Note } from '../../../record/services/recorded.ts'
import type { StoredAccount } from '../../db/accounts.db.ts'
import { type Factors, hasFactor, readFactorRules, readFactors } from '../../db/factors.db.ts'
import { insertHalf } from '../../db/half-sign-ins.db.ts'
import { deleteExpiredSessions } from '../../db/sessions.db.ts'
import { hashToken, newToken } from '../token.ts'
import { type Keys, openSession } from './open-session.ts'
import { expiredBefore } from './session-life.ts'
import { toActor } from './to-actor.ts'
import type { Visitor } from './visitor.ts'

/** So long the second factor can be given. */
export const HALF_MS = 5 * 60_000

/** What a first step comes to: a session; or, where the account has a second factor, a sign-in halfway, which is none. */
export type FirstStep =
  | { readonly kind: 'signed in'; readonly keys: Keys; readonly actor: Actor; readonly onlyEnrols: boolean }
  | {
      readonly kind: 'halfway'
      readonly halfToken: string
      readonly expiresAt: Date
      readonly name: string
      readonly factors: Factors
    }

/** Whose first step it is, and how it was passed: by `password`, by `link`, or by a provider of single sign-on, by its name. */
interface Passed {
  readonly account: StoredAccount
  readonly by: string
  readonly visitor: Visitor
}

/**
 * The first step of a sign-in is passed, whichever way: opens a session, or asks for the second factor where the account has
 * one. An account that needs one and has none gets a session that is only good for setting one up. In: the transaction that
 * keeps the account usable.
 */
export async function completeSignIn(
  context: Context,
  { tx, note }: { tx: Transaction; note: Note },
  { account, by, visitor }: Passed,
): Promise<FirstStep> {
  const now = context.clock()
  const subject = { kind: 'account', id: account.accountId }
  await deleteExpiredSessions(tx, expiredBefore(now))
  const factors = await readFactors(tx, account.accountId)
  if (hasFactor(factors)) {
    const halfToken = newToken()
    const expiresAt = new Date(now.getTime() + HALF_MS)
    await insertHalf(tx, { tokenHash: hashToken(halfToken), accountId: account.accountId, how: by, expiresAt }, now)
    note({ action: 'session.factor-asked', subject, after: { by } })
    return { kind: 'halfway', halfToken, expiresAt, name: account.name, factors }
  }
  const onlyEnrols = needsFactor(account.roles, await readFactorRules(tx), await today(context))
  note({ action: 'session.opened', subject, after: { by, ...(onlyEnrols ? { onlyEnrols } : {}) } })
  const keys = await openSession(tx, account.accountId, visitor, { now, confirmedAt: now, onlyEnrols })
  return { kind: 'signed in', keys, actor: { ...toActor(account), address: visitor.address }, onlyEnrols }
}

/**
 * The same where a provider of single sign-on vouches for somebody: its sign-in counts as its own factor, and no password was
 * right on the device. It shows once more who they are as long as it lately asked them, and did not only remember. In: when they
 * showed it (null: unknown). Out: the keys of the session.
 */
export async function completeSignOn(
  { tx, note }: { tx: Transaction; note: Note },
  {
    accountId,
    by,
    visitor,
    now,
    shownAt,
  }: { accountId: string; by: string; visitor: Visitor; now: Date; shownAt: Date | null },
): Promise<Keys> {
  await deleteExpiredSessions(tx, expiredBefore(now))
  note({ action: 'session.opened', subject: { kind: 'account', id: accountId }, after: { by } })
  return openSession(tx, accountId, visitor, { now, confirmedAt: shownAt, onlyEnrols: false, knowsDevice: false })
}

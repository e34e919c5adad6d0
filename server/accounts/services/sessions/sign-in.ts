import type { Context } from '../../../context/context.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockUsableAccount, readAccountByName } from '../../db/accounts.db.ts'
import { isKnownDevice } from '../../db/known-devices.db.ts'
import { forgetTriesBefore } from '../../db/password-tries.db.ts'
import { deleteExpiredSessions } from '../../db/sessions.db.ts'
import { passwordFits } from '../password.ts'
import { deviceHash } from './device-hash.ts'
import { networkOf } from './network.ts'
import { type Keys, openSession } from './open-session.ts'
import { DEVICE_MS, expiredBefore } from './session-life.ts'
import { toActor } from './to-actor.ts'
import { byAccount, byDevice, byNetwork, type Counter, passAttempt, takeAttempt } from './tries.ts'
import type { Visitor } from './visitor.ts'

/** Counts of wrong passwords are dropped so long after the last one; all is forgiven by then. */
const TRIES_KEPT_MS = 24 * 3_600_000

/**
 * Opens a session. Out: its keys, for the cookies, and who it is. A wrong name, a wrong password, an account without a
 * password and a disabled one are told apart by nothing, the time taken included. Throws TooManyRequests where too many
 * wrong passwords came before.
 */
export async function signIn(
  context: Context,
  { name, password }: { name: string; password: string },
  visitor: Visitor,
): Promise<Keys & { actor: Actor }> {
  const account = await readAccountByName(context.db, name)
  const usable = account?.isDisabled ? null : account
  const counters = await countersFor(context, usable?.accountId ?? null, name, visitor)
  await takeAttempt(context, counters)
  const fits = await passwordFits(usable?.passwordHash ?? null, password)
  if (!usable || !fits) {
    await noteRefusal(context, account?.accountId ?? null, visitor)
    throw wrong()
  }
  const actor = { ...toActor(usable), address: visitor.address }
  const keys = await recorded(context, actor, async (tx, note) => {
    if (!(await lockUsableAccount(tx, usable.accountId, usable.passwordHash))) throw wrong()
    const now = context.clock()
    await passAttempt(tx, counters)
    await deleteExpiredSessions(tx, expiredBefore(now))
    await forgetTriesBefore(tx, new Date(now.getTime() - TRIES_KEPT_MS))
    note({ action: 'session.opened', subject: { kind: 'account', id: usable.accountId } })
    return openSession(tx, usable.accountId, visitor, now)
  })
  return { ...keys, actor }
}

/** From a device it is known on an account waits for nobody else's wrong passwords. */
async function countersFor(
  context: Context,
  accountId: string | null,
  name: string,
  { deviceToken, address }: Visitor,
): Promise<Counter[]> {
  if (accountId !== null && deviceToken !== undefined) {
    const hash = deviceHash(deviceToken, accountId)
    const since = new Date(context.clock().getTime() - DEVICE_MS)
    if (await isKnownDevice(context.db, hash, accountId, since)) return [byDevice(hash)]
  }
  return [byNetwork(networkOf(address)), byAccount(accountId ?? `named ${name.toLowerCase()}`)]
}

/** The name as typed is not kept: people type passwords into the wrong field. */
async function noteRefusal(context: Context, accountId: string | null, { address }: Visitor): Promise<void> {
  await recorded(context, { accountId: null, name: null, address, soldierId: null }, async (_tx, note) => {
    note({ action: 'session.refused', subject: { kind: 'account', id: accountId } })
  })
}

const wrong = (): AppError =>
  new AppError('not-signed-in', 'wrong-name-or-password', 'Name or password is wrong. Check both and try again.')

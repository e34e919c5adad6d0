import type { Context } from '../../../context/context.ts'
import { AppError } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockUsableAccount, readAccountByName } from '../../db/accounts.db.ts'
import { isKnownDevice } from '../../db/known-devices.db.ts'
import { deleteAttemptsBefore } from '../../db/password-attempts.db.ts'
import { passwordFits } from '../password.ts'
import { byAccount, byDevice, byNetwork, type Counter, passAttempt, takeAttempt } from './attempts.ts'
import { completeSignIn, type FirstStep } from './complete-sign-in.ts'
import { deviceHash } from './device-hash.ts'
import { networkOf } from './network.ts'
import { DEVICE_MS } from './session-life.ts'
import { toActor } from './to-actor.ts'
import type { Visitor } from './visitor.ts'

/** Counts of wrong passwords are dropped so long after the last one; all is forgiven by then. */
const ATTEMPTS_KEPT_MS = 24 * 3_600_000

/**
 * The first step of a sign-in, by name and password. Out: what it comes to. A wrong name, a wrong password, an account without a
 * password and a disabled one are told apart by nothing, the time taken included. Throws TooManyRequests where too many
 * wrong passwords came before.
 */
export async function signIn(
  context: Context,
  { name, password }: { name: string; password: string },
  visitor: Visitor,
): Promise<FirstStep> {
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
  return recorded(context, actor, async (tx, note) => {
    if (!(await lockUsableAccount(tx, usable.accountId, usable.passwordHash))) throw wrong()
    const now = context.clock()
    await passAttempt(tx, counters)
    await deleteAttemptsBefore(tx, new Date(now.getTime() - ATTEMPTS_KEPT_MS))
    return completeSignIn(context, { tx, note }, { account: usable, by: 'password', visitor })
  })
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

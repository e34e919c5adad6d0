import type { Context } from '../../context/context.ts'
import type { PasswordBody } from '../../contract/accounts/accounts.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type AppError, conflict, invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { lockAccount, readNamesAround, savePassword } from '../db/account-changes.db.ts'
import { lockUsableAccount } from '../db/accounts.db.ts'
import { removeKnownDevices } from '../db/known-devices.db.ts'
import { deleteSessionsOf } from '../db/sessions.db.ts'
import { checkNewPassword } from './check-new-password.ts'
import { hashPassword } from './password.ts'
import { requirePresentPassword } from './present-password.ts'
import { refuseForDemo } from './refuse-for-demo.ts'
import { passAttempt } from './sessions/attempts.ts'
import { type Keys, openSession } from './sessions/open-session.ts'
import type { Visitor } from './sessions/visitor.ts'

/**
 * Changes one's own password, for which the present one is needed. All sessions end; this browser gets a new one. Out:
 * its keys, and how many other sessions were ended.
 */
export async function changePassword(
  context: Context,
  actor: Actor,
  { current, next }: PasswordBody,
  visitor: Visitor,
): Promise<Keys & { ended: number }> {
  refuseForDemo(context, actor.name)
  await checkNewPassword(next, '/next', await readNamesAround(context.db, actor.accountId))
  const { hash: present, counters } = await requirePresentPassword(context, actor, visitor, current, '/current')
  if (current.normalize('NFC') === next.normalize('NFC')) {
    throw invalid('same-password', '/next', 'This is the password you have. Choose another one.')
  }
  const passwordHash = await hashPassword(next)
  return recorded(context, actor, async (tx, note) => {
    const id = actor.accountId
    await lockAccount(tx, id)
    if (!(await lockUsableAccount(tx, id, present))) throw changedMeanwhile()
    await passAttempt(tx, counters)
    await savePassword(tx, id, passwordHash)
    const ended = (await deleteSessionsOf(tx, id)) - 1
    await removeKnownDevices(tx, id)
    note({ action: 'account.password-changed', subject: { kind: 'account', id }, after: { sessionsEnded: ended } })
    const now = context.clock()
    return { ...(await openSession(tx, id, visitor, { now, confirmedAt: now, onlyEnrols: false })), ended }
  })
}

const changedMeanwhile = (): AppError =>
  conflict('changed-meanwhile', 'The password was changed elsewhere in the meantime. Sign in with that one.')

import type { Context } from '../../context/context.ts'
import type { Welcome, WelcomeBody } from '../../contract/accounts/accounts.ts'
import { AppError } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { lockAccount, readNamesAround, savePassword } from '../db/account-changes.db.ts'
import { type Invited, readInvited, takeUpInvitation } from '../db/invitations.db.ts'
import { clearAttempts } from '../db/password-attempts.db.ts'
import { deleteSessionsOf } from '../db/sessions.db.ts'
import { checkNewPassword } from './check-new-password.ts'
import { hashPassword } from './password.ts'
import { byAccount } from './sessions/attempts.ts'
import { completeSignIn, type FirstStep } from './sessions/complete-sign-in.ts'
import type { Visitor } from './sessions/visitor.ts'
import { hashToken } from './token.ts'

/** Whom a link is for. A link that is unknown, used up, replaced or too old is not found. */
export async function lookAtLink(context: Context, token: string): Promise<Welcome> {
  const { name, expiresAt } = await invitedBy(context, token)
  return { name, expiresAt: expiresAt.toISOString() }
}

/** Chooses the password of an account by its link, which is used up by it; the first step of a sign-in is passed with it. */
export async function acceptLink(
  context: Context,
  { token, password }: WelcomeBody,
  visitor: Visitor,
): Promise<FirstStep> {
  const { accountId: id, name } = await invitedBy(context, token)
  await checkNewPassword(password, '/password', await readNamesAround(context.db, id))
  const passwordHash = await hashPassword(password)
  return recorded(context, { accountId: id, name, address: visitor.address, soldierId: null }, async (tx, note) => {
    const now = context.clock()
    const account = await lockAccount(tx, id)
    if (!account || !(await takeUpInvitation(tx, hashToken(token), now))) throw linkEnded()
    await savePassword(tx, id, passwordHash)
    await deleteSessionsOf(tx, id)
    await clearAttempts(tx, byAccount(id).subject)
    note({ action: 'account.password-chosen', subject: { kind: 'account', id } })
    return completeSignIn(context, { tx, note }, { account, by: 'link', visitor })
  })
}

async function invitedBy(context: Context, token: string): Promise<Invited> {
  const invited = await readInvited(context.db, hashToken(token), context.clock())
  if (!invited) throw linkEnded()
  return invited
}

const linkEnded = (): AppError =>
  new AppError(
    'not-found',
    'link-used-or-expired',
    'This link was used, replaced by a newer one, or has expired. Ask an administrator for a new one.',
  )

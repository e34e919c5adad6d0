import type { Context } from '../../../context/context.ts'
import type { SetupBody } from '../../../contract/accounts/session.ts'
import { AppError, conflict } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { countAccounts, insertAccount } from '../../db/accounts.db.ts'
import { useSetupLink } from '../../db/setup-links.db.ts'
import { checkNewPassword } from '../check-new-password.ts'
import { hashPassword } from '../password.ts'
import { hashToken } from '../token.ts'

/** Makes the first account from the one-time link: office and administrator in one, who can make the others. */
export async function makeFirstAccount(context: Context, body: SetupBody): Promise<{ id: string }> {
  await checkNewPassword(body.password, '/password', [body.name])
  const passwordHash = await hashPassword(body.password)
  return recorded(context, null, async (tx, note) => {
    const now = context.clock()
    if (!(await useSetupLink(tx, hashToken(body.token), now))) {
      const remedy = 'Restart the server to print a new one, if there is no account yet.'
      throw new AppError('not-signed-in', 'link-used-or-expired', `This link was used or has expired. ${remedy}`)
    }
    if ((await countAccounts(tx)) > 0) throw conflict('already-set-up', 'There is an account already. Sign in with it.')
    const roles = ['office', 'administrator'] as const
    const account = { name: body.name, passwordHash, roles, soldierId: null, unitId: null, createdAt: now }
    const id = await insertAccount(tx, account)
    note({ action: 'account.first-made', subject: { kind: 'account', id }, after: { roles } })
    return { id }
  })
}

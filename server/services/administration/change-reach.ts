import type { AccountBody } from '../../contract/accounts.ts'
import { lockAccount, lockAccounts, saveReach } from '../../db/account-changes.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import type { Context } from '../context.ts'
import { recorded } from '../record/recorded.ts'
import { checkReach } from './check-reach.ts'
import { keepAnAdministrator } from './keep-an-administrator.ts'
import { requireAdministrator } from './require-administrator.ts'

/** Changes roles, soldier and unit of an account; it holds from its next request on. */
export async function changeReach(
  context: Context,
  actor: Actor,
  id: string,
  body: AccountBody,
): Promise<{ id: string }> {
  requireAdministrator(actor)
  return recorded(context, actor, async (tx, note) => {
    await lockAccounts(tx)
    const account = await lockAccount(tx, id)
    if (!account) throw notFound('account')
    await checkReach(tx, id, body)
    await saveReach(tx, id, body)
    await keepAnAdministrator(tx)
    const { roles, soldierId, unitId } = account
    note({
      action: 'account.reach-changed',
      subject: { kind: 'account', id },
      before: { roles, soldierId, unitId },
      after: body,
    })
    return { id }
  })
}

import { lockAccount, lockAccounts, saveDisabled } from '../../db/account-changes.db.ts'
import { deleteInvitation } from '../../db/invitations.db.ts'
import { deleteSessionsOf } from '../../db/sessions.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import type { Context } from '../context.ts'
import { recorded } from '../record/recorded.ts'
import { keepAnAdministrator } from './keep-an-administrator.ts'
import { requireAdministrator } from './require-administrator.ts'

/** Disables an account, which ends its sessions and its link, or enables it again with the password it had. */
export async function setDisabled(
  context: Context,
  actor: Actor,
  id: string,
  disabled: boolean,
): Promise<{ id: string }> {
  requireAdministrator(actor)
  return recorded(context, actor, async (tx, note) => {
    await lockAccounts(tx)
    const account = await lockAccount(tx, id)
    if (!account) throw notFound('account')
    if (account.isDisabled === disabled) return { id }
    await saveDisabled(tx, id, disabled ? context.clock() : null)
    if (disabled) {
      await keepAnAdministrator(tx)
      await deleteSessionsOf(tx, id)
      await deleteInvitation(tx, id)
    }
    note({ action: disabled ? 'account.disabled' : 'account.enabled', subject: { kind: 'account', id } })
    return { id }
  })
}

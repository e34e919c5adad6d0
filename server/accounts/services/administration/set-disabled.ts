import type { Context } from '../../../context/context.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { saveDisabled } from '../../db/account-changes.db.ts'
import { deleteInvitation } from '../../db/invitations.db.ts'
import { deleteTokensOf } from '../../db/script-tokens.db.ts'
import { deleteSessionsOf } from '../../db/sessions.db.ts'
import { changeAccount } from './change-account.ts'
import { keepAnAdministrator } from './keep-an-administrator.ts'

/** Disables an account, which ends its sessions, tokens and link, or enables it again with the password it had. */
export async function setDisabled(
  context: Context,
  actor: Actor,
  id: string,
  disabled: boolean,
): Promise<{ id: string }> {
  return changeAccount(context, actor, id, async (tx, note, { isDisabled }) => {
    if (isDisabled === disabled) return { id }
    await saveDisabled(tx, id, disabled ? context.clock() : null)
    if (disabled) {
      await keepAnAdministrator(tx)
      await deleteSessionsOf(tx, id)
      await deleteTokensOf(tx, id)
      await deleteInvitation(tx, id)
    }
    note({ action: disabled ? 'account.disabled' : 'account.enabled', subject: { kind: 'account', id } })
    return { id }
  })
}

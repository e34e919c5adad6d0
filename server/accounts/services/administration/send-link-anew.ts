import type { Context } from '../../../context/context.ts'
import type { InvitationLink } from '../../../contract/accounts/accounts.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict } from '../../../errors.ts'
import { savePassword } from '../../db/account-changes.db.ts'
import { removeKnownDevices } from '../../db/known-devices.db.ts'
import { deleteTokensOf } from '../../db/script-tokens.db.ts'
import { deleteSessionsOf } from '../../db/sessions.db.ts'
import { refuseForDemo } from '../refuse-for-demo.ts'
import { changeAccount } from './change-account.ts'
import { keepAnAdministrator } from './keep-an-administrator.ts'
import { makeLink } from './make-link.ts'

/**
 * Takes the password of an account away, ends its sessions and tokens, and makes a link to choose a new one: for links that ran out,
 * passwords forgotten or known to others.
 */
export async function sendLinkAnew(context: Context, actor: Actor, id: string): Promise<InvitationLink> {
  return changeAccount(context, actor, id, async (tx, note, { name, isDisabled }) => {
    if (id === actor.accountId) {
      throw conflict('own-account', 'Change your own password under your own account, or ask another administrator.')
    }
    refuseForDemo(context, name)
    if (isDisabled) throw conflict('account-disabled', 'This account is disabled. Enable it first.')
    await savePassword(tx, id, null)
    await keepAnAdministrator(tx)
    const sessionsEnded = await deleteSessionsOf(tx, id)
    const tokensRevoked = await deleteTokensOf(tx, id)
    await removeKnownDevices(tx, id)
    note({ action: 'account.link-sent', subject: { kind: 'account', id }, after: { sessionsEnded, tokensRevoked } })
    return makeLink(tx, id, context.clock())
  })
}

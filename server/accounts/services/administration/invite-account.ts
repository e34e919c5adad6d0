import type { Context } from '../../../context/context.ts'
import type { InvitationBody, InvitationLink } from '../../../contract/accounts/accounts.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { type Note, recorded } from '../../../record/services/recorded.ts'
import { lockAccounts } from '../../db/account-changes.db.ts'
import { insertAccount } from '../../db/accounts.db.ts'
import { checkReach } from './check-reach.ts'
import { makeLink } from './make-link.ts'
import { readNameRegister, takeName } from './name-register.ts'
import { requireAdministrator } from './require-administrator.ts'

/** Makes an account without a password, and the link with which whoever gets it chooses one. */
export async function inviteAccount(context: Context, actor: Actor, body: InvitationBody): Promise<InvitationLink> {
  requireAdministrator(actor)
  return recorded(context, actor, async (tx, note) => {
    await lockAccounts(tx)
    takeName(await readNameRegister(tx), body.name)
    await checkReach(tx, null, body)
    return storeInvited(tx, note, body, context.clock())
  })
}

/** Stores an account that was checked, on record, and makes its link. */
export async function storeInvited(
  tx: Transaction,
  note: Note,
  body: InvitationBody,
  createdAt: Date,
): Promise<InvitationLink> {
  const id = await insertAccount(tx, { ...body, passwordHash: null, createdAt })
  note({ action: 'account.invited', subject: { kind: 'account', id }, after: body })
  return makeLink(tx, id, createdAt)
}

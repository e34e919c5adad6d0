import type { Context } from '../../../context/context.ts'
import type { InvitationBody, InvitationLink } from '../../../contract/accounts/accounts.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { nameSkeleton } from '../../../domain/access/name-skeleton.ts'
import { conflict } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockAccounts } from '../../db/account-changes.db.ts'
import { insertAccount, listAccountNames, readAccountByName } from '../../db/accounts.db.ts'
import { checkReach } from './check-reach.ts'
import { makeLink } from './make-link.ts'
import { requireAdministrator } from './require-administrator.ts'

/** Makes an account without a password, and the link with which whoever gets it chooses one. */
export async function inviteAccount(context: Context, actor: Actor, body: InvitationBody): Promise<InvitationLink> {
  requireAdministrator(actor)
  return recorded(context, actor, async (tx, note) => {
    await lockAccounts(tx)
    if (await readAccountByName(tx, body.name)) {
      throw conflict(
        'name-taken',
        'There is an account of this name already. Choose another name, or send that one a link.',
      )
    }
    const alike = nameSkeleton(body.name)
    const double = (await listAccountNames(tx)).find((name) => nameSkeleton(name) === alike)
    if (double !== undefined) {
      throw conflict(
        'name-too-alike',
        `This name looks like that of the account "${double}". Choose one that does not.`,
      )
    }
    await checkReach(tx, null, body)
    const createdAt = context.clock()
    const id = await insertAccount(tx, { ...body, passwordHash: null, createdAt })
    note({ action: 'account.invited', subject: { kind: 'account', id }, after: body })
    return makeLink(tx, id, createdAt)
  })
}

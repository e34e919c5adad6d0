import type { Context } from '../../../context/context.ts'
import type { AccountBody } from '../../../contract/accounts/accounts.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError } from '../../../errors.ts'
import { saveReach } from '../../db/account-changes.db.ts'
import { changeAccount } from './change-account.ts'
import { checkReach } from './check-reach.ts'
import { keepAnAdministrator } from './keep-an-administrator.ts'

/** Changes roles, soldier and unit of an account; it holds from its next request on. */
export async function changeReach(
  context: Context,
  actor: Actor,
  id: string,
  body: AccountBody,
): Promise<{ id: string }> {
  return changeAccount(context, actor, id, async (tx, note, { roles, soldierId, unitId }) => {
    if (id === actor.accountId && soldierId !== null && body.soldierId !== soldierId) throw ownLink()
    await checkReach(tx, id, body)
    await saveReach(tx, id, body)
    await keepAnAdministrator(tx)
    const before = { roles, soldierId, unitId }
    note({ action: 'account.reach-changed', subject: { kind: 'account', id }, before, after: body })
    return { id }
  })
}

/** Whoever could say that they are nobody, or somebody else, would have no case of their own. */
const ownLink = (): AppError =>
  new AppError(
    'not-allowed',
    'impartiality',
    'Which soldier your own account belongs to is changed by another administrator.',
  )

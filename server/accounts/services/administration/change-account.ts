import type { Context } from '../../../context/context.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { notFound } from '../../../errors.ts'
import { type Note, recorded } from '../../../record/services/recorded.ts'
import { lockAccount, lockAccounts, type ManagedAccount } from '../../db/account-changes.db.ts'
import { requireAdministrator } from './require-administrator.ts'

/** Does something to an account, for an administrator, while nobody else manages accounts; all of it is on record. */
export async function changeAccount<Result>(
  context: Context,
  actor: Actor,
  id: string,
  work: (tx: Transaction, note: Note, account: ManagedAccount) => Promise<Result>,
): Promise<Result> {
  requireAdministrator(actor)
  return recorded(context, actor, async (tx, note) => {
    await lockAccounts(tx)
    const account = await lockAccount(tx, id)
    if (!account) throw notFound('account')
    return work(tx, note, account)
  })
}

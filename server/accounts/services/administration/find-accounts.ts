import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import type { Account, AccountQuery } from '../../../contract/accounts/accounts.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { listAccounts } from '../../db/account-list.db.ts'
import { requireAdministrator } from './require-administrator.ts'

/** The accounts, by name. */
export async function findAccounts(
  context: Context,
  actor: Actor,
  query: AccountQuery,
): Promise<{ items: Account[]; next: string | null }> {
  requireAdministrator(actor)
  const key = fromCursor(query.after, ['text'])
  const page = { limit: query.limit + 1, after: key && String(key[0]) }
  const rows = await listAccounts(context.db, query, page, context.clock())
  return toPage(
    rows,
    query.limit,
    ({ sortKey }) => [sortKey],
    ({ sortKey: _, ...account }) => account,
  )
}

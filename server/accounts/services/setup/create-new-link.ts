import type { Database } from '../../../db/client.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { readAccountByName } from '../../db/accounts.db.ts'
import { makeLink } from '../administration/make-link.ts'

/**
 * Makes a one-time link to choose a new password of an account, for whoever runs the server: the last administrator may
 * have forgotten theirs. The present password holds until the link is used. Out: its token; null where there is no such
 * account, or it is disabled.
 */
export async function createNewLink(
  context: { db: Database; clock: () => Date },
  name: string,
): Promise<string | null> {
  return recorded(context, null, async (tx, note) => {
    const account = await readAccountByName(tx, name)
    if (!account || account.isDisabled) return null
    note({ action: 'account.link-printed', subject: { kind: 'account', id: account.accountId } })
    return (await makeLink(tx, account.accountId, context.clock())).token
  })
}

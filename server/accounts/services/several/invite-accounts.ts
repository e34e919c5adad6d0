import type { Context } from '../../../context/context.ts'
import type { InvitationBody } from '../../../contract/accounts/accounts.ts'
import type { InvitationLinks, InvitationsBody } from '../../../contract/accounts/several.ts'
import type { Transaction } from '../../../db/client.ts'
import { shareSoldiers } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError, type ErrorItem } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockAccounts } from '../../db/account-changes.db.ts'
import { checkReach } from '../administration/check-reach.ts'
import { storeInvited } from '../administration/invite-account.ts'
import { type NameRegister, readNameRegister, takeName } from '../administration/name-register.ts'
import { requireAdministrator } from '../administration/require-administrator.ts'

/**
 * Makes many accounts and their links, all or none; each is on record by itself. What is wrong with any is said of all at
 * once, each at its place in the list.
 */
export async function inviteAccounts(
  context: Context,
  actor: Actor,
  { accounts }: InvitationsBody,
): Promise<InvitationLinks> {
  requireAdministrator(actor)
  return recorded(context, actor, async (tx, note) => {
    await lockAccounts(tx)
    // All at once and in order, so that nobody who locks several waits for us while we wait for them.
    await shareSoldiers(
      tx,
      accounts.flatMap(({ soldierId }) => soldierId ?? []),
    )
    const names = await readNameRegister(tx)
    const items: InvitationLinks['items'] = []
    const faults: ErrorItem[] = []
    for (const [at, account] of accounts.entries()) {
      const found = await faultsOf(tx, names, account, `/accounts/${at}`)
      faults.push(...found)
      if (found.length > 0) continue
      items.push({ name: account.name, ...(await storeInvited(tx, note, account, context.clock())) })
    }
    if (faults.length > 0) throw notMade(faults)
    return { items }
  })
}

async function faultsOf(
  tx: Transaction,
  names: NameRegister,
  account: InvitationBody,
  pointer: string,
): Promise<ErrorItem[]> {
  return [
    ...(await faultIn(async () => takeName(names, account.name), `${pointer}/name`)),
    ...(await faultIn(() => checkReach(tx, null, account), pointer, '/soldierId')),
  ]
}

/** What a check refuses, at its place. In: where to say so, and below it where the check itself does not say. */
async function faultIn(check: () => Promise<void>, pointer: string, otherwise = ''): Promise<ErrorItem[]> {
  try {
    await check()
    return []
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    const { rule, message: detail } = error
    return [{ pointer: `${pointer}${error.items[0]?.pointer ?? otherwise}`, rule, detail }]
  }
}

const notMade = (faults: readonly ErrorItem[]): AppError =>
  new AppError(
    'invalid',
    'accounts-not-made',
    'No account was made, for something is wrong with one or more of them. Put it right and send all again.',
    faults,
  )

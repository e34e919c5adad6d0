import { countAdministrators, lockAccount, lockAccounts, saveReach } from '../../accounts/db/account-changes.db.ts'
import { insertAccount } from '../../accounts/db/accounts.db.ts'
import { deleteTokensOf } from '../../accounts/db/script-tokens.db.ts'
import { deleteSessionsOf } from '../../accounts/db/sessions.db.ts'
import { readNameRegister, takeName } from '../../accounts/services/administration/name-register.ts'
import type { Context } from '../../context/context.ts'
import type { SignOnProblem } from '../../contract/sign-on/problems.ts'
import type { Transaction } from '../../db/client.ts'
import { accountName } from '../../domain/access/account-name.ts'
import { textClaim } from '../../domain/access/claim-rules.ts'
import { AppError } from '../../errors.ts'
import { type Note, recorded } from '../../record/services/recorded.ts'
import { type Identity, insertIdentity, readIdentity, stopMail } from '../db/identities.db.ts'
import type { StoredProvider } from '../db/providers.db.ts'
import type { SignedIn } from '../provider/exchange.ts'
import { reachByRules } from './reach-by-rules.ts'

/** Makes an account for somebody a provider signs in for the first time, by its rules. Out: the link, or why there is none. */
export async function makeAccountByRules(
  context: Context,
  provider: StoredProvider,
  { subject, claims }: SignedIn,
  address: string,
): Promise<Identity | SignOnProblem> {
  if (!provider.makesAccounts) return 'no-account'
  const name = accountName(textClaim(claims, provider.nameClaim))
  if (name === null) return 'no-name'
  return recorded(context, { accountId: null, name: null, address, soldierId: null }, async (tx, note) => {
    await lockAccounts(tx)
    const before = await readIdentity(tx, provider.id, subject)
    if (before) return before
    const { roles, unitId, soldierId, soldierTaken } = await reachByRules(tx, provider, claims, null)
    if (soldierTaken) return 'soldier-taken'
    if (roles.length === 0) return 'no-role'
    if (!(await isFree(tx, name))) return 'name-taken'
    const now = context.clock()
    const accountId = await insertAccount(tx, { name, passwordHash: null, roles, soldierId, unitId, createdAt: now })
    const followsRules = true
    const id = await insertIdentity(tx, { providerId: provider.id, subject, accountId, followsRules, linkedAt: now })
    const after = { name, roles, soldierId, unitId, by: provider.name }
    note({ action: 'account.made-by-provider', subject: { kind: 'account', id: accountId }, after })
    return { id: id!, accountId, name, followsRules }
  })
}

/** Nobody gets an account that could be taken for somebody else's; whose name it is links the account they have. */
async function isFree(tx: Transaction, name: string): Promise<boolean> {
  try {
    takeName(await readNameRegister(tx), name)
    return true
  } catch (error) {
    if (error instanceof AppError) return false
    throw error
  }
}

/**
 * Gives an account that a provider made the roles and the unit that its rules give it now. The last administrator with a
 * password stays one. Without a role left it is signed out everywhere, its tokens end, and mail to it stops until its address is
 * confirmed anew. Out: whether it may sign in.
 */
export async function followRules(
  tx: Transaction,
  note: Note,
  provider: StoredProvider,
  accountId: string,
  claims: SignedIn['claims'],
): Promise<boolean> {
  const account = (await lockAccount(tx, accountId))!
  const { soldierId, roles, unitId } = await reachByRules(tx, provider, claims, account)
  if (roles.length === 0) {
    const after = {
      sessionsEnded: await deleteSessionsOf(tx, accountId),
      tokensRevoked: await deleteTokensOf(tx, accountId),
      mailStopped: await stopMail(tx, accountId),
    }
    const reason = `No rule of ${provider.name} fits any more`
    note({ action: 'account.out-of-reach', subject: { kind: 'account', id: accountId }, after, reason })
    return false
  }
  const after = { roles, soldierId, unitId }
  await saveReach(tx, accountId, after)
  if ((await countAdministrators(tx)) === 0) {
    after.roles = [...roles, 'administrator']
    await saveReach(tx, accountId, after)
  }
  const before = { roles: account.roles, soldierId: account.soldierId, unitId: account.unitId }
  if (isSame(before, after)) return true
  const reason = `By the rules of ${provider.name}`
  note({ action: 'account.reach-changed', subject: { kind: 'account', id: accountId }, before, after, reason })
  return true
}

interface Reach {
  readonly roles: readonly string[]
  readonly soldierId: string | null
  readonly unitId: string | null
}

const isSame = (one: Reach, other: Reach): boolean =>
  one.soldierId === other.soldierId &&
  one.unitId === other.unitId &&
  [...one.roles].sort().join() === [...other.roles].sort().join()

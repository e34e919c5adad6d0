import type { Context } from '../../../context/context.ts'
import type { FactorOverview, FactorRules } from '../../../contract/accounts/factors.ts'
import type { Actor, Role } from '../../../domain/access/actor.ts'
import { conflict } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockAccounts } from '../../db/account-changes.db.ts'
import { countWithout, hasFactor, readFactorRules, readFactors, replaceFactorRules } from '../../db/factors.db.ts'
import { requireAdministrator } from './require-administrator.ts'

/** Which roles need a second factor, and how many accounts of each role have none yet. */
export async function findFactorRules(context: Context, actor: Actor): Promise<FactorOverview> {
  requireAdministrator(actor)
  const counted = await countWithout(context.db)
  return {
    rules: (await readFactorRules(context.db)).map(({ role, fromDay }) => ({ role: role as Role, fromDay })),
    roles: counted.map(({ role, ...counts }) => ({ role: role as Role, ...counts })),
  }
}

/**
 * Says which roles need a second factor, and from which day on. Whoever lacks one sets it up at the next sign-in, so nobody
 * is locked out; who demands it of administrators shows first that it works here, by having one.
 */
export async function changeFactorRules(
  context: Context,
  actor: Actor,
  { rules }: FactorRules,
): Promise<FactorOverview> {
  requireAdministrator(actor)
  await recorded(context, actor, async (tx, note) => {
    await lockAccounts(tx)
    const isOfAdministrators = rules.some(({ role }) => role === 'administrator')
    if (isOfAdministrators && !hasFactor(await readFactors(tx, actor.accountId))) throw ownFirst()
    const before = { rules: await readFactorRules(tx) }
    await replaceFactorRules(tx, rules)
    note({ action: 'account.factor-rules-changed', subject: { kind: 'accounts', id: null }, before, after: { rules } })
  })
  return findFactorRules(context, actor)
}

const ownFirst = () =>
  conflict(
    'own-factor-first',
    'Set up a second factor of your own under My account first; then you know that it works here for administrators.',
  )

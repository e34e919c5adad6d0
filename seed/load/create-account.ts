import { insertAccount } from '../../server/accounts/db/accounts.db.ts'
import type { Database } from '../../server/db/client.ts'
import type { Actor } from '../../server/domain/access/actor.ts'
import type { PlannedAccount } from '../generate/plan.ts'
import { type Ids, idOrNull } from './ids.ts'

/** Makes one demo account. Out: it as an actor. In: the hash of the password, which all of them share. */
export async function createAccount(
  db: Database,
  ids: Ids,
  { name, role, soldier, unitKey }: PlannedAccount,
  { passwordHash, createdAt }: { passwordHash: string | null; createdAt: Date },
): Promise<Actor> {
  const roles = [role]
  const whose = { soldierId: idOrNull(ids.soldiers, soldier), unitId: idOrNull(ids.units, unitKey) }
  const accountId = await insertAccount(db, { name, passwordHash, roles, ...whose, createdAt })
  return { accountId, name, roles, ...whose, address: null }
}

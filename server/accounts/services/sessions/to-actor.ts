import type { Actor, Role } from '../../../domain/access/actor.ts'
import type { StoredAccount } from '../../db/accounts.db.ts'

/** An account as who acts; the address comes with the request. */
export function toActor({ accountId, name, roles, soldierId, unitId }: StoredAccount): Actor {
  return { accountId, name, roles: roles as Role[], soldierId, unitId, address: null }
}

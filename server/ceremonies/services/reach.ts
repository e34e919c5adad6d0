import { existingUnits, isAtOrBelow } from '../../access/db/units.db.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { can } from '../../domain/access/permissions.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** Of a ceremony: plan all of it, name soldiers of one's own unit to it, or only look at it. */
export type Reach = 'plan' | 'name' | 'look'

/**
 * What an account may do with the ceremonies of a unit: plan those of its own unit and below; of those of a unit above,
 * which also calls on its soldiers, it may name its own people.
 */
export async function reachOf(tx: Transaction, actor: Actor, scope: Scope, unitId: string): Promise<Reach> {
  if (!can(actor, 'plan-ceremonies')) return 'look'
  if (scope.everyone) return (await existingUnits(tx, [unitId])).length > 0 ? 'plan' : 'look'
  if (scope.unitId === null) return 'look'
  if (await isAtOrBelow(tx, unitId, scope.unitId)) return 'plan'
  return (await isAtOrBelow(tx, scope.unitId, unitId)) ? 'name' : 'look'
}

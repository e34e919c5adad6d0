import { isAtOrBelow } from '../../access/db/units.db.ts'
import { requireAction, requireUnitInScope, unknownUnit } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'

/** What of the findings an account may see. */
export interface FindingsView {
  /** The unit they are about, with all below it; undefined: the whole record. */
  readonly unitId: string | undefined
  /** The unit at the top of what may be seen, so that a unit can be held against the rest of it; undefined: everything. */
  readonly topUnitId: string | undefined
  /** The sponsors (and graders) who may be shown by name; null: all. */
  readonly sponsorIds: readonly string[] | null
}

/**
 * Narrows findings to what an account may see: the office the whole record or any unit; leaders and commanders their
 * subtree; a sponsor the figures of the units above them, and no other sponsor by name.
 */
export async function findingsView(context: Context, actor: Actor, unitId: string | undefined): Promise<FindingsView> {
  requireAction(actor, 'see-findings')
  const scope = await scopeFor(context, actor)
  if (!scope.everyone && scope.unitId !== null) {
    const top = unitId ?? scope.unitId
    if (!(await isAtOrBelow(context.db, top, scope.unitId))) throw unknownUnit()
    return { unitId: top, topUnitId: scope.unitId, sponsorIds: null }
  }
  await requireUnitInScope(context, scope, unitId)
  const sponsorIds = scope.everyone ? null : scope.sponsorId === null ? [] : [scope.sponsorId]
  return { unitId, topUnitId: undefined, sponsorIds }
}

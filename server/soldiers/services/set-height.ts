import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { namingScope } from '../../domain/access/scope.ts'
import { notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { soldiersInScope } from '../db/roster.db.ts'
import { storeHeight } from '../db/soldiers.db.ts'
import { requireNotRemoved } from './removals/require-not-removed.ts'

/**
 * Keeps a soldier's height, for posts with a height band; null forgets it. The record tells that it was set, not what it
 * is: the entry outlives the need for it.
 */
export async function setHeight(
  context: Context,
  actor: Actor,
  soldierId: string,
  heightCm: number | null,
): Promise<{ heightCm: number | null }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = namingScope(await scopeFor(context, actor))
  return recorded(context, actor, async (tx, note) => {
    if ((await soldiersInScope(tx, scope, [soldierId])).length === 0) throw notFound('soldier')
    await requireNotRemoved(tx, [soldierId])
    await storeHeight(tx, soldierId, heightCm)
    const action = heightCm === null ? 'soldier.height-forgotten' : 'soldier.height-set'
    note({ action, subject: { kind: 'soldier', id: soldierId } })
    return { heightCm }
  })
}

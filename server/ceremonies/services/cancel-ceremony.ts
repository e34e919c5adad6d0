import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { recorded } from '../../record/services/recorded.ts'
import { cancelCeremony as storeCancelled } from '../db/ceremony-writes.db.ts'
import { openCeremony } from './open-ceremony.ts'

/** Calls a ceremony off, with the reason. Its people are free then; who was named stays on record. */
export async function cancelCeremony(
  context: Context,
  actor: Actor,
  id: string,
  { version, reason }: { version: number; reason: string },
): Promise<{ version: number }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    await openCeremony(tx, actor, scope, { id, version, reach: 'plan' })
    await storeCancelled(tx, id, context.clock(), reason)
    note({ action: 'ceremony.cancelled', subject: { kind: 'ceremony', id }, reason })
    return { version: version + 1 }
  })
}

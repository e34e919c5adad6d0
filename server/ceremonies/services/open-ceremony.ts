import { notAllowed } from '../../access/services/require.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { conflict, notFound } from '../../errors.ts'
import { type CeremonyRow, lockCeremony, readCeremony } from '../db/ceremonies.db.ts'
import { type Reach, reachOf } from './reach.ts'

/**
 * Opens a ceremony for a change: locks it, and refuses who may not, what is called off, and a change made on an older
 * version than the one stored (`stale-ceremony`). In: at least how far one must reach.
 */
export async function openCeremony(
  tx: Transaction,
  actor: Actor,
  scope: Scope,
  { id, version, reach }: { id: string; version: number; reach: Exclude<Reach, 'look'> },
): Promise<{ ceremony: CeremonyRow; reach: Reach }> {
  const locked = await lockCeremony(tx, id)
  const ceremony = locked && (await readCeremony(tx, scope, id))
  if (!locked || !ceremony) throw notFound('ceremony')
  const reaches = await reachOf(tx, actor, scope, ceremony.unitId)
  if (reaches === 'look' || (reach === 'plan' && reaches === 'name')) throw notAllowed()
  if (locked.cancelled) {
    throw conflict('cancelled', 'The ceremony is called off and stays as it is; copy it to plan it anew.')
  }
  if (locked.version !== version) {
    throw conflict(
      'stale-ceremony',
      'Somebody has changed this ceremony since you opened it, and nothing of yours was stored. Load it again and make your change on what it says now.',
    )
  }
  return { ceremony, reach: reaches }
}

import type { Transaction } from '../../../db/client.ts'
import { conflict } from '../../../errors.ts'
import { readRemovals } from '../../db/removals/removals.db.ts'

/** Refuses to change who somebody is whose personal data was removed: nothing brings it back. */
export async function requireNotRemoved(tx: Transaction, ids: readonly string[]): Promise<void> {
  if ((await readRemovals(tx, ids)).size === 0) return
  throw conflict(
    'soldier-removed',
    'The personal data of this soldier was removed for good. Somebody who returns is added as a new soldier.',
  )
}

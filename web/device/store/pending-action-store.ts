import { notifyChanged } from './changes.ts'
import { deviceDatabase } from './database.ts'
import type { PendingAction } from './pending-action.ts'

/** Keeps what was done about a booking until the server has it; waits until it is on the disk. */
export const keepPendingAction = async (pendingAction: PendingAction): Promise<void> => {
  const transaction = (await deviceDatabase()).transaction('deeds', 'readwrite', { durability: 'strict' })
  await Promise.all([transaction.store.put(pendingAction), transaction.done])
  notifyChanged()
}

/** All of an account on this device, the earliest first. */
export const readPendingActions = async (accountId: string): Promise<PendingAction[]> => {
  const pendingActions = await (await deviceDatabase()).getAllFromIndex('deeds', 'account', accountId)
  return pendingActions.sort((a, b) => a.at.localeCompare(b.at) || a.id.localeCompare(b.id))
}

/** Takes a pending action off the device, unless another one about the same booking took its place in the meantime. */
export const dropPendingAction = async ({ accountId, id, at }: PendingAction): Promise<void> => {
  const transaction = (await deviceDatabase()).transaction('deeds', 'readwrite')
  const kept = await transaction.store.get([accountId, id])
  if (kept?.at === at) await transaction.store.delete([accountId, id])
  await transaction.done
  notifyChanged()
}

import { tellChanged } from './changes.ts'
import { deviceDatabase } from './database.ts'
import type { Deed } from './deed.ts'

/** Keeps what was done about a booking until the server has it; waits until it is on the disk. */
export const keepDeed = async (deed: Deed): Promise<void> => {
  const transaction = (await deviceDatabase()).transaction('deeds', 'readwrite', { durability: 'strict' })
  await Promise.all([transaction.store.put(deed), transaction.done])
  tellChanged()
}

/** All of an account on this device, the earliest first. */
export const readDeeds = async (accountId: string): Promise<Deed[]> => {
  const deeds = await (await deviceDatabase()).getAllFromIndex('deeds', 'account', accountId)
  return deeds.sort((a, b) => a.at.localeCompare(b.at) || a.id.localeCompare(b.id))
}

/** Takes a deed off the device, unless another one about the same booking took its place in the meantime. */
export const dropDeed = async ({ accountId, id, at }: Deed): Promise<void> => {
  const transaction = (await deviceDatabase()).transaction('deeds', 'readwrite')
  const kept = await transaction.store.get([accountId, id])
  if (kept?.at === at) await transaction.store.delete([accountId, id])
  await transaction.done
  tellChanged()
}

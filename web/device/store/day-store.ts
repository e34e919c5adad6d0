import type { Standard } from '#contract/standards/standards.ts'
import type { DayList } from '#contract/test-days/day-list.ts'
import { notifyChanged } from './changes.ts'
import { deviceDatabase, type KeptDay } from './database.ts'
import { dropStoredBefore } from './sheet-store.ts'

const DAY_MS = 86_400_000

/** Keeps a downloaded day list with its standards, and lets go of what only an earlier day needed. */
export const keepDay = async (accountId: string, list: DayList, now: Date): Promise<void> => {
  const database = await deviceDatabase()
  const transaction = database.transaction(['days', 'standards'], 'readwrite')
  await Promise.all([
    transaction.objectStore('days').put({ accountId, list, fetchedAt: now.toISOString() }),
    ...list.standards.map((standard) => transaction.objectStore('standards').put(standard)),
    transaction.done,
  ])
  await dropStoredBefore(accountId, new Date(now.getTime() - DAY_MS).toISOString())
  notifyChanged()
}

export const readDay = async (accountId: string): Promise<KeptDay | undefined> =>
  (await deviceDatabase()).get('days', accountId)

/** A version of a standard, kept since a list named it. */
export const readStandard = async (code: string, version: number): Promise<Standard | undefined> =>
  (await deviceDatabase()).get('standards', [code, version])

/** Somebody has read the cautions and says that all is in place for a day. */
export const openDay = async (accountId: string, day: string, now: Date): Promise<void> => {
  await (await deviceDatabase()).put('opened', { accountId, day, at: now.toISOString() })
  notifyChanged()
}

/** When the day was opened on this device; undefined before. */
export const dayOpenedAt = async (accountId: string, day: string): Promise<string | undefined> =>
  (await (await deviceDatabase()).get('opened', [accountId, day]))?.at

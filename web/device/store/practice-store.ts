import { notifyChanged } from './changes.ts'
import { deviceDatabase } from './database.ts'
import type { KeptPractice } from './kept-practice.ts'
import { WrittenElsewhereError } from './sheet-store.ts'

/**
 * Puts practice on this device and waits until it is on its disk. In: it with its revision, one more than what is stored.
 * Throws `WrittenElsewhereError` where that is not so, and whatever the browser says when it refuses.
 */
export const keepPractice = async (practice: KeptPractice): Promise<void> => {
  const transaction = (await deviceDatabase()).transaction('practices', 'readwrite', { durability: 'strict' })
  const stored = await transaction.store.get([practice.accountId, practice.id])
  if (stored && stored.revision >= practice.revision) {
    transaction.abort()
    await transaction.done.catch(() => undefined)
    throw new WrittenElsewhereError()
  }
  await Promise.all([transaction.store.put(practice), transaction.done])
  if (stored?.state !== practice.state) notifyChanged()
}

export const readPractice = async (accountId: string, id: string): Promise<KeptPractice | undefined> =>
  (await deviceDatabase()).get('practices', [accountId, id])

/** All of an account on this device, the earliest first. */
export const readPractices = async (accountId: string): Promise<KeptPractice[]> => {
  const practices = await (await deviceDatabase()).getAllFromIndex('practices', 'account', accountId)
  return practices.sort((a, b) => a.practice.startedAt.localeCompare(b.practice.startedAt) || a.id.localeCompare(b.id))
}

/** Takes practice off the device: the server has it, or its coach discards it. */
export const dropPractice = async ({ accountId, id }: Pick<KeptPractice, 'accountId' | 'id'>): Promise<void> => {
  await (await deviceDatabase()).delete('practices', [accountId, id])
  notifyChanged()
}

/** How many an account has here that the server is not known to have. */
export const countUnsentPractices = async (accountId: string): Promise<number> =>
  readPractices(accountId).then(
    (practices) => practices.length,
    () => 0,
  )

/** Whose practice, other than that of an account, is on this device: a name each. */
export const readOthersPractice = async (accountId: string): Promise<string[]> =>
  (await (await deviceDatabase()).getAll('practices'))
    .filter((practice) => practice.accountId !== accountId)
    .map(({ accountName }) => accountName)

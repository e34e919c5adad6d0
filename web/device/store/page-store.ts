import { notifyChanged } from './changes.ts'
import { deviceDatabase } from './database.ts'
import { candidatePage, type KeptPage } from './kept-page.ts'

export const keepPage = async (page: KeptPage): Promise<void> => {
  await (await deviceDatabase()).put('pages', page)
}

export const readPage = async (accountId: string, page: string): Promise<KeptPage | undefined> =>
  (await deviceDatabase()).get('pages', [accountId, page])

const dropWhere = async (accountId: string, isGone: (page: string) => boolean): Promise<void> => {
  const database = await deviceDatabase()
  for (const key of await database.getAllKeys('pages', IDBKeyRange.bound([accountId], [accountId, []]))) {
    if (isGone(key[1])) await database.delete('pages', key)
  }
}

/** Lets go of the pages of candidates who are not among these any more. */
export const dropPagesOfOthers = (accountId: string, candidateIds: readonly string[]): Promise<void> => {
  const own = new Set(candidateIds.map(candidatePage))
  return dropWhere(accountId, (page) => page.startsWith(candidatePage('')) && !own.has(page))
}

/** Lets go of every page of an account. */
export const dropPages = async (accountId: string): Promise<void> => {
  await dropWhere(accountId, () => true)
  notifyChanged()
}

import { tellChanged } from './changes.ts'
import { deviceDatabase } from './database.ts'
import { isUnsent, type KeptSheet } from './kept-sheet.ts'

/** Another window has written this sheet in the meantime; what it wrote stands. */
export class WrittenElsewhereError extends Error {
  constructor() {
    super('This sheet was changed in another window. Go on there, or open it again here.')
    this.name = 'WrittenElsewhereError'
  }
}

/**
 * Puts a sheet on this device and waits until it is on its disk (strict durability).
 * In: the sheet with its revision, one more than what is stored. Throws `WrittenElsewhereError` where that is not so, and
 * whatever the browser says when it refuses, such as a `QuotaExceededError`.
 */
export const keepSheet = async (sheet: KeptSheet): Promise<void> => {
  const database = await deviceDatabase()
  const transaction = database.transaction('sheets', 'readwrite', { durability: 'strict' })
  const stored = await transaction.store.get([sheet.accountId, sheet.id])
  if (stored && stored.revision >= sheet.revision) {
    transaction.abort()
    await transaction.done.catch(() => undefined)
    throw new WrittenElsewhereError()
  }
  await Promise.all([transaction.store.put(sheet), transaction.done])
  // A mark concerns nobody but who makes it; lists have to know what is new, closed or opened again.
  if (stored?.state !== sheet.state) tellChanged()
}

/** Changes a sheet as it is stored now, and answers it; null where it is not there. */
export const changeSheet = async (
  accountId: string,
  id: string,
  change: (sheet: KeptSheet) => KeptSheet,
): Promise<KeptSheet | null> => {
  const database = await deviceDatabase()
  const transaction = database.transaction('sheets', 'readwrite', { durability: 'strict' })
  const stored = await transaction.store.get([accountId, id])
  if (!stored) return null
  const changed = { ...change(stored), revision: stored.revision + 1 }
  await Promise.all([transaction.store.put(changed), transaction.done])
  tellChanged()
  return changed
}

export const readSheet = async (accountId: string, id: string): Promise<KeptSheet | undefined> =>
  (await deviceDatabase()).get('sheets', [accountId, id])

/** All sheets of an account on this device, the earliest first: by when they were closed, those being graded last. */
export const readSheets = async (accountId: string): Promise<KeptSheet[]> => {
  const sheets = await (await deviceDatabase()).getAllFromIndex('sheets', 'account', accountId)
  const turn = ({ closedAt, sheet }: KeptSheet) => closedAt ?? `~${sheet.startedAt}`
  return sheets.sort((a, b) => turn(a).localeCompare(turn(b)) || a.id.localeCompare(b.id))
}

/** Throws a sheet away; only ever one that its grader discards, or that the server has. */
export const dropSheet = async (accountId: string, id: string): Promise<void> => {
  await (await deviceDatabase()).delete('sheets', [accountId, id])
  tellChanged()
}

/** How many sheets of an account are here that the server is not known to have. */
export const countUnsentSheets = async (accountId: string): Promise<number> => {
  try {
    return (await readSheets(accountId)).filter(isUnsent).length
  } catch {
    return 0
  }
}

/** Takes away what the server has had since before a day: it is there for looking at only as long as the day lasts. */
export const dropStoredBefore = async (accountId: string, instant: string): Promise<void> => {
  for (const { id, state, closedAt } of await readSheets(accountId)) {
    if (state === 'stored' && closedAt !== null && closedAt < instant) await dropSheet(accountId, id)
  }
}

import { notifyChanged } from './changes.ts'
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
 * Sheets that the device refuses to keep, newer than what it has: they live as long as this window, and every reader here
 * sees them, so that one closed on a full phone still goes out.
 */
const unkept = new Map<string, KeptSheet>()

/**
 * Puts a sheet on this device and waits until it is on its disk (strict durability).
 * In: the sheet with its revision, one more than what is stored. Throws `WrittenElsewhereError` where that is not so, and
 * whatever the browser says when it refuses, such as a `QuotaExceededError`; then this window holds it.
 */
export const keepSheet = async (sheet: KeptSheet): Promise<void> => {
  const held = unkept.get(sheet.id)
  const newest = held && held.revision > sheet.revision ? held : sheet
  try {
    await write(newest)
    unkept.delete(sheet.id)
  } catch (error) {
    if (error instanceof WrittenElsewhereError) throw error
    unkept.set(sheet.id, newest)
    notifyChanged()
    throw error
  }
}

const write = async (sheet: KeptSheet): Promise<void> => {
  const database = await deviceDatabase()
  const transaction = database.transaction('sheets', 'readwrite', { durability: 'strict' })
  // Both are asked for at once: what is read comes first, in time to take the change back.
  const reading = transaction.store.get([sheet.accountId, sheet.id])
  const putting = transaction.store.put(sheet)
  const ended = Promise.all([putting, transaction.done])
  const stored = await reading
  if (stored && stored.revision >= sheet.revision) {
    transaction.abort()
    await ended.catch(() => undefined)
    throw new WrittenElsewhereError()
  }
  transaction.commit()
  await ended
  // A mark concerns nobody but who makes it; lists have to know what is new, closed or opened again.
  if (stored?.state !== sheet.state) notifyChanged()
}

/**
 * Changes a sheet as it is now, and answers it; null where it is not there. What the device refuses throws, or, where so
 * asked, is held by this window.
 */
export const changeSheet = async (
  accountId: string,
  id: string,
  change: (sheet: KeptSheet) => KeptSheet,
  refused: 'throw' | 'hold' = 'throw',
): Promise<KeptSheet | null> => {
  const held = heldSheet(accountId, id)
  let changed = held ? { ...change(held), revision: held.revision + 1 } : null
  try {
    const database = await deviceDatabase()
    const transaction = database.transaction('sheets', 'readwrite', { durability: 'strict' })
    const stored = held ?? (await transaction.store.get([accountId, id]))
    if (!stored) return null
    changed ??= { ...change(stored), revision: stored.revision + 1 }
    await Promise.all([transaction.store.put(changed), transaction.done])
    unkept.delete(id)
  } catch (error) {
    if (changed === null || (!held && refused === 'throw')) throw error
    unkept.set(id, changed)
  }
  notifyChanged()
  return changed
}

const heldSheet = (accountId: string, id: string): KeptSheet | undefined => {
  const held = unkept.get(id)
  return held?.accountId === accountId ? held : undefined
}

export const readSheet = async (accountId: string, id: string): Promise<KeptSheet | undefined> =>
  heldSheet(accountId, id) ?? (await deviceDatabase()).get('sheets', [accountId, id])

/** All sheets of an account on this device, the earliest first: by when they were closed, those being graded last. */
export const readSheets = async (accountId: string): Promise<KeptSheet[]> => {
  const held = [...unkept.values()].filter((sheet) => sheet.accountId === accountId)
  const kept = async () => (await deviceDatabase()).getAllFromIndex('sheets', 'account', accountId)
  const stored = await kept().catch((error: unknown) => {
    if (held.length === 0) throw error
    return []
  })
  const sheets = [...stored.filter(({ id }) => !unkept.has(id)), ...held]
  const turn = ({ closedAt, sheet }: KeptSheet) => closedAt ?? `~${sheet.startedAt}`
  return sheets.sort((a, b) => turn(a).localeCompare(turn(b)) || a.id.localeCompare(b.id))
}

/** Throws a sheet away; only ever one that its grader discards, or that the server has. */
export const dropSheet = async (accountId: string, id: string): Promise<void> => {
  unkept.delete(id)
  await (await deviceDatabase()).delete('sheets', [accountId, id])
  notifyChanged()
}

/** How many sheets of an account are here that the server is not known to have. */
export const countUnsentSheets = async (accountId: string): Promise<number> => {
  try {
    return (await readSheets(accountId)).filter(isUnsent).length
  } catch {
    return 0
  }
}

/** Whose sheets, other than those of an account, wait on this device and how many: names and counts, nothing of what is on them. */
export const readOthersWaiting = async (accountId: string): Promise<{ name: string; count: number }[]> => {
  const found = new Map<string, { name: string; count: number }>()
  for (const sheet of await (await deviceDatabase()).getAll('sheets')) {
    if (sheet.accountId === accountId || !isUnsent(sheet)) continue
    const { count } = found.get(sheet.accountId) ?? { count: 0 }
    found.set(sheet.accountId, { name: sheet.accountName ?? 'another account', count: count + 1 })
  }
  return [...found.values()]
}

/** Takes away what the server has had since before a day: it is there for looking at only as long as the day lasts. */
export const dropStoredBefore = async (accountId: string, instant: string): Promise<void> => {
  for (const { id, state, closedAt } of await readSheets(accountId)) {
    if (state === 'stored' && closedAt !== null && closedAt < instant) await dropSheet(accountId, id)
  }
}

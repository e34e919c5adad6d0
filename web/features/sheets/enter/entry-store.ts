import '../../../api/no-run-time-code.ts'
import { z } from 'zod'
import { SheetBody } from '#contract/sheets/sheets.ts'
import { Draft } from './draft.ts'
import { entryPrefix } from './entry-keys.ts'

/** A sheet on this device: open, waiting to be sent (its body is fixed then), or sent and refused. */
export const Entry = z.object({
  draft: Draft,
  state: z.enum(['open', 'waiting', 'refused']),
  body: SheetBody.nullable(),
  /** Why it waits or was refused. */
  message: z.string(),
})

export type Entry = z.infer<typeof Entry>

/** The sheets an account has on this device; one that cannot be read any more is left out, and left where it is. */
export const loadEntries = (accountId: string): Entry[] => {
  try {
    const prefix = entryPrefix(accountId)
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(prefix))
      .flatMap((key) => {
        const parsed = Entry.safeParse(JSON.parse(localStorage.getItem(key) ?? 'null'))
        return parsed.success ? [parsed.data] : []
      })
  } catch {
    return []
  }
}

/** Keeps a sheet on this device, each under its own key so that two windows do not overwrite each other. False when the device refuses. */
export const saveEntry = (accountId: string, entry: Entry): boolean => {
  try {
    localStorage.setItem(entryPrefix(accountId) + entry.draft.id, JSON.stringify(entry))
    return true
  } catch {
    return false
  }
}

export const dropEntry = (accountId: string, id: string): void => {
  try {
    localStorage.removeItem(entryPrefix(accountId) + id)
  } catch {
    // Without storage there is nothing to remove.
  }
}

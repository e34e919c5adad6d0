import type { KeptDraft } from './draft-keeper.ts'

const keyOf = (id: string): string => `reviewstand.draft.${id}`

/** What this device still has of a draft that the server has not; null where there is nothing, or it cannot be read. */
export const leftDraft = (id: string): KeptDraft | null => {
  try {
    return JSON.parse(localStorage.getItem(keyOf(id)) ?? 'null') as KeptDraft | null
  } catch {
    return null
  }
}

/** Keeps a draft on this device until the server has it; null: it has. Where the device refuses, only the page has it. */
export const keepDraft = (id: string, draft: KeptDraft | null): void => {
  try {
    if (draft) localStorage.setItem(keyOf(id), JSON.stringify(draft))
    else localStorage.removeItem(keyOf(id))
  } catch {
    // It goes on in memory; the page says whether the server has it.
  }
}

import fs from 'node:fs'

/** Removes a cluster that was begun. Another start may be writing in it, or removing it, at the same moment: so it tries again. */
export function removeDraft(folder: string): void {
  fs.rmSync(folder, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 })
}

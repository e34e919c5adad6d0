import type { Database } from '../../db/client.ts'
import { withSetupLock } from './with-setup-lock.ts'

/** Before anybody sees figures: puts into them the sheets that a migration took out. One process does it, others wait. */
export function countSheetsAnew(url: string, db: Database, say: (line: string) => void): Promise<void> {
  return withSetupLock(url, async () => {
    const { countAnew } = await import('../../assessment/services/recount/count-anew.ts')
    let told = false
    await countAnew(db, () => {
      if (!told) say('Counting the sheets anew for this version; with many of them it takes some minutes …')
      told = true
    })
  })
}

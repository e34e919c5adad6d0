import { readCatalogue } from '../../../db/catalogue.db.ts'
import type { Database } from '../../../db/client.ts'
import { lockSoldiers, shareCatalogue } from '../../../db/locks.db.ts'
import { inTransaction } from '../../../db/transaction.ts'
import { findUncounted } from '../../db/uncounted.db.ts'
import { settleSoldiers } from '../settle-soldiers.ts'
import { settleTallies } from '../settle-tallies.ts'

const TOGETHER = 200

/**
 * Puts into the tallies every attempt that is in none, as after a migration that emptied them; without any it is one look
 * at an index. Broken off, it goes on with the rest the next time.
 * In: `progress` hears how many candidates were gone through.
 */
export async function countAnew(db: Database, progress: (candidates: number) => void): Promise<void> {
  for (let after: string | null = null, done = 0; ; ) {
    const ids: string[] = await inTransaction(db, async (tx) => {
      await shareCatalogue(tx)
      const found = await findUncounted(tx, after, TOGETHER)
      if (found.length === 0) return []
      await lockSoldiers(tx, found)
      const catalogue = await readCatalogue(tx)
      const { sheets } = await settleSoldiers(tx, catalogue, found, new Set())
      await settleTallies(tx, catalogue, sheets)
      return found
    })
    if (ids.length === 0) return
    done += ids.length
    after = ids.at(-1)!
    progress(done)
  }
}

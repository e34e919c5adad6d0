import { readDossier } from '../../../assessment/db/dossiers.db.ts'
import { untally } from '../../../assessment/services/settle-tallies.ts'
import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { markUntallied } from '../../db/merges/merge-sheets.db.ts'

/** Takes all sheets of some candidates out of the tallies, before the people on them become others. */
export async function untallyAll(tx: Transaction, catalogue: Catalogue, candidates: readonly string[]): Promise<void> {
  for (const candidate of candidates) {
    const { sheets } = await readDossier(tx, candidate)
    for (const sheet of sheets) await untally(tx, catalogue, sheet)
    await markUntallied(
      tx,
      sheets.map(({ id }) => id),
    )
  }
}

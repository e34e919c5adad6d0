import type { Context } from '../../context/context.ts'
import { readCatalogueRevision } from '../../db/catalogue.db.ts'

/** Asks the database something; fails where it does not answer. */
export async function checkHealth(context: Context): Promise<void> {
  await readCatalogueRevision(context.db)
}

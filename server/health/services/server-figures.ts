import type { Context } from '../../context/context.ts'
import { type PoolFigures, poolFigures } from '../../db/client.ts'
import { type Figures, readFigures } from '../db/figures.db.ts'
import { checkHealth } from './check-health.ts'

/** How busy the server is, and how it stands with what it does by itself. Fails soon where the database does not answer. */
export async function readServerFigures(context: Context): Promise<PoolFigures & Figures> {
  await checkHealth(context)
  return { ...(await readFigures(context.db)), ...poolFigures(context.db) }
}

import type { Context } from '../../context/context.ts'
import { type PoolFigures, poolFigures, standbyFigures } from '../../db/client.ts'
import type { StandbyFigures } from '../../db/standbys/standbys.ts'
import { type Figures, readFigures } from '../db/figures.db.ts'
import { checkHealth } from './check-health.ts'

/** In one table of figures; the standbys in the order they are named in. */
export type ServerFigures = PoolFigures & Figures & { readonly standbys: readonly StandbyFigures[] }

/** How busy the server is, and how it stands with what it does by itself. Fails soon where the database does not answer. */
export async function readServerFigures(context: Context): Promise<ServerFigures> {
  await checkHealth(context)
  const [figures, standbys] = await Promise.all([readFigures(context.db, context.clock()), standbyFigures(context.db)])
  return { ...figures, ...poolFigures(context.db), standbys }
}

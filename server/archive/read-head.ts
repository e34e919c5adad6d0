import type pg from 'pg'
import { StartProblem } from '../config/start-problem.ts'
import { FORMAT, FORMAT_VERSION, type Head } from './format.ts'

/**
 * What an archive of this database says of itself.
 * @throws StartProblem where nothing of ours is in the database
 */
export async function readHead(
  database: pg.ClientBase,
  { timeZone, product }: { timeZone: string; product: string },
): Promise<Head> {
  const { rows: found } = await database.query<{ exists: boolean }>(
    `SELECT to_regclass('_prisma_migrations') IS NOT NULL AS exists`,
  )
  if (!found[0]!.exists)
    throw new StartProblem('The database holds nothing of Reviewstand, so there is nothing to back up.')
  const { rows } = await database.query<{ name: string; checksum: string }>(
    `SELECT migration_name AS name, checksum FROM _prisma_migrations
     WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY started_at, finished_at, migration_name`,
  )
  const { rows: state } = await database.query<{ now: Date; comment: string | null }>(
    `SELECT now(), obj_description('_prisma_migrations'::regclass) AS comment`,
  )
  const { now, comment } = state[0]!
  if (comment?.includes('being loaded')) {
    throw new StartProblem('The demo is being loaded into this database; back it up when that is done.')
  }
  return {
    format: FORMAT,
    formatVersion: FORMAT_VERSION,
    product,
    takenAt: now.toISOString(),
    timeZone,
    demo: comment !== null,
    migrations: rows,
  }
}

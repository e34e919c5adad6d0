import type pg from 'pg'
import { StartProblem } from '../config/start-problem.ts'
import { quoted } from './tables.ts'

/** Rows that every migrated database has, whoever uses it. */
const OF_MIGRATIONS = new Set(['_prisma_migrations', 'catalogue', 'record_head', 'setup_link', 'sign_on_page'])

/**
 * Makes sure that nothing can be lost, and takes away the bare tables of a server that was started once and not used.
 * @throws StartProblem where there is something
 */
export async function requireEmpty(database: pg.Client): Promise<void> {
  const { rows: tables } = await database.query<{ name: string }>(
    'SELECT tablename AS name FROM pg_tables WHERE schemaname = current_schema() ORDER BY tablename',
  )
  if (tables.length === 0) return
  const isOurs = tables.some(({ name }) => name === '_prisma_migrations')
  for (const { name } of tables) {
    if (isOurs && OF_MIGRATIONS.has(name)) continue
    const { rows } = await database.query(`SELECT 1 FROM ${quoted(name)} LIMIT 1`)
    if (!isOurs || rows.length > 0) throw notEmpty(isOurs)
  }
  const { rows } = await database.query<{ schema: string }>('SELECT current_schema() AS schema')
  const schema = quoted(rows[0]!.schema)
  await database.query(`DROP SCHEMA ${schema} CASCADE; CREATE SCHEMA ${schema}`)
}

const notEmpty = (isOurs: boolean): StartProblem =>
  new StartProblem(
    `The database is not empty: it holds ${isOurs ? 'records of Reviewstand' : 'tables that are not of Reviewstand'}. ` +
      'Nothing was changed. A restore goes into an empty one only: set REVIEWSTAND_DATA to a new folder, ' +
      'or DATABASE_URL to an empty database.',
  )

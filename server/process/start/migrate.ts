import { randomUUID } from 'node:crypto'
import path from 'node:path'
import type pg from 'pg'
import { projectFolder } from '../../config/project-folder.ts'
import { StartProblem } from '../../config/start-problem.ts'
import { connectDatabase } from './connect-database.ts'
import { type Migration, readMigrations } from './migration-files.ts'

export const ourMigrations = path.join(projectFolder, 'prisma/migrations')

/** The lock Prisma takes for the same purpose, so that its own tools and we wait for each other. */
const prismaLock = 72_707_369

/** Prisma's table of what was applied, as its own tools make it. */
export const historyTable = `CREATE TABLE _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL,
  checksum VARCHAR(64) NOT NULL,
  finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL,
  logs TEXT,
  rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(),
  applied_steps_count INTEGER NOT NULL DEFAULT 0
)`

/**
 * Brings a database to the state this version needs: applies what is new in `prisma/migrations`, in order, each file
 * whole or not at all, and records it the way `prisma migrate deploy` does. Several processes may do it at once.
 * @returns names of the migrations applied now
 * @throws StartProblem when the database does not fit this version; then it is left as it was
 */
export async function migrate(url: string, folder = ourMigrations): Promise<string[]> {
  const migrations = readMigrations(folder)
  const database = await connectDatabase(url)
  try {
    await checkVersion(database)
    await database.query('SELECT pg_advisory_lock($1)', [prismaLock])
    const applied = await readHistory(database)
    checkHistory(applied, migrations)
    const pending = migrations.filter(({ name }) => !applied.has(name))
    for (const migration of pending) await apply(database, migration)
    return pending.map(({ name }) => name)
  } finally {
    await database.end()
  }
}

async function checkVersion(database: pg.Client): Promise<void> {
  const { rows } = await database.query<{ number: number; name: string }>(
    `SELECT current_setting('server_version_num')::int AS number, current_setting('server_version') AS name`,
  )
  const version = rows[0]!
  if (version.number < 150_000) {
    throw new StartProblem(`PostgreSQL is version ${version.name}; Reviewstand needs 15 or newer. Upgrade it.`)
  }
}

/** @returns checksum by name of migration; null: begun and not finished */
async function readHistory(database: pg.Client): Promise<Map<string, string | null>> {
  const { rows: tables } = await database.query<{ tablename: string }>(
    'SELECT tablename FROM pg_tables WHERE schemaname = current_schema()',
  )
  if (tables.length === 0) await database.query(historyTable)
  else if (!tables.some(({ tablename }) => tablename === '_prisma_migrations')) {
    throw new StartProblem(
      'The database holds tables that are not of Reviewstand. Give it an empty database of its own in DATABASE_URL.',
    )
  }
  const { rows } = await database.query<{ name: string; checksum: string | null }>(
    `SELECT migration_name AS name, CASE WHEN finished_at IS NOT NULL THEN checksum END AS checksum
     FROM _prisma_migrations WHERE rolled_back_at IS NULL`,
  )
  return new Map(rows.map(({ name, checksum }) => [name, checksum]))
}

function checkHistory(applied: Map<string, string | null>, migrations: readonly Migration[]): void {
  const known = new Map(migrations.map(({ name, checksum }) => [name, checksum]))
  for (const [name, checksum] of applied) {
    const ours = known.get(name)
    if (ours === undefined) {
      throw new StartProblem(
        `The database was used by a newer version of Reviewstand (migration ${name}). Start that version or a later one.`,
      )
    }
    if (checksum === null) {
      throw new StartProblem(
        `The migration ${name} was begun by Prisma's tool and not finished. Settle it with "npx prisma migrate resolve".`,
      )
    }
    if (checksum !== ours) {
      throw new StartProblem(
        `The file of migration ${name} was changed after it was applied. Restore it; a change needs a migration of its own.`,
      )
    }
  }
}

async function apply(database: pg.Client, migration: Migration): Promise<void> {
  await database.query('BEGIN')
  try {
    await applyInTransaction(database, migration)
    await database.query('COMMIT')
  } catch (cause) {
    await database.query('ROLLBACK').catch(() => {})
    throw new StartProblem(
      `The migration ${migration.name} could not be applied, and nothing of it was kept: ${(cause as Error).message}.`,
      { cause },
    )
  }
}

/** Applies a migration and records it, in the transaction that is open. */
export async function applyInTransaction(database: pg.Client, { name, sql, checksum }: Migration): Promise<void> {
  await database.query(sql)
  await database.query(
    `INSERT INTO _prisma_migrations (id, checksum, migration_name, started_at, finished_at, applied_steps_count)
     VALUES ($1, $2, $3, clock_timestamp(), clock_timestamp(), 1)`,
    [randomUUID(), checksum, name],
  )
}

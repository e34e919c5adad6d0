import type pg from 'pg'
import { StartProblem } from '../config/start-problem.ts'
import { connectDatabase } from '../process/start/connect-database.ts'
import { demoComment } from '../process/start/demo-marker.ts'
import { applyInTransaction, historyTable, ourMigrations } from '../process/start/migrate.ts'
import { type Migration, readMigrations } from '../process/start/migration-files.ts'
import { checkArchive } from './check-archive.ts'
import type { Head, Manifest } from './format.ts'
import { loadTables } from './load-tables.ts'
import { requireEmpty } from './require-empty.ts'

/** Number of our advisory lock in the product's database: nobody else fills it meanwhile. */
const lockNumber = 41_800_002

/**
 * Fills an empty database with what an archive holds, in one transaction: all of it or nothing. The schema is first
 * made as it was when the archive was written, then filled, then brought up to date as any database is.
 * @returns the manifest of the archive
 * @throws StartProblem when the archive is damaged or newer than we are, or the database holds something
 */
export async function restoreArchive(
  url: string,
  file: string,
  { folder = ourMigrations, onProgress }: { folder?: string; onProgress?: (done: number, all: number) => void } = {},
): Promise<Manifest> {
  const manifest = await checkArchive(file)
  const { then, later } = splitMigrations(file, manifest.head, readMigrations(folder))
  const database = await connectDatabase(url)
  try {
    await database.query('BEGIN')
    await database.query("SET LOCAL statement_timeout = 0; SET LOCAL TimeZone = 'UTC'; SET LOCAL DateStyle = 'ISO'")
    await database.query('SELECT pg_advisory_xact_lock($1)', [lockNumber])
    await requireEmpty(database)
    await database.query(historyTable)
    for (const migration of then) await applyInTransaction(database, migration)
    await loadTables(database, file, manifest, onProgress)
    await requireWholeRecord(database)
    for (const migration of later) await applyInTransaction(database, migration)
    if (manifest.head.demo) await database.query(`COMMENT ON TABLE _prisma_migrations IS '${demoComment}'`)
    if (later.length > 0) await requireWholeRecord(database)
    await requireExplainedGaps(database)
    await database.query('COMMIT')
    await database.query('ANALYZE')
    return manifest
  } catch (error) {
    await database.query('ROLLBACK').catch(() => {})
    throw inPlainWords(error)
  } finally {
    await database.end()
  }
}

/** Those that had made the schema of the archive, and those that came after. */
function splitMigrations(file: string, { product, migrations }: Head, ours: readonly Migration[]) {
  const known = new Map(ours.map((migration) => [migration.name, migration]))
  const then = migrations.map(({ name, checksum }) => {
    const migration = known.get(name)
    if (migration?.checksum === checksum) return migration
    throw new StartProblem(
      `${file} was made by a newer or another Reviewstand (${product}, migration ${name}). ` +
        'Nothing was changed. Restore it with that version or a later one.',
    )
  })
  const names = new Set(migrations.map(({ name }) => name))
  return { then, later: ours.filter(({ name }) => !names.has(name)) }
}

/** By the rules of the schema it is in, before later migrations chain it anew, and by today’s after. */
async function requireWholeRecord(database: pg.Client): Promise<void> {
  const { rows } = await database.query<{ broken: string | null; fits: boolean }>(
    `WITH checked AS (
       SELECT seq, hash, hash IS DISTINCT FROM record_entry_hash(e)
         OR previous_hash <> lag(hash, 1, sha256('Reviewstand record of changes')) OVER (ORDER BY seq)
         OR seq <> lag(seq, 1, 0::bigint) OVER (ORDER BY seq) + 1 AS is_broken
       FROM record_entry e)
     SELECT (SELECT min(seq)::text FROM checked WHERE is_broken) AS broken,
       (SELECT count(*) FROM checked) = head.seq
         AND COALESCE((SELECT hash FROM checked ORDER BY seq DESC LIMIT 1) = head.hash, true) AS fits
     FROM record_head head`,
  )
  const { broken, fits } = rows[0] ?? { broken: '1', fits: false }
  if (broken !== null || !fits) throw notWhole(broken === null ? 'its end' : `entry ${broken}`)
}

/** An entry may be empty only where a removal of a soldier says so. */
async function requireExplainedGaps(database: pg.Client): Promise<void> {
  const { rows } = await database.query<{ seq: string }>('SELECT seq::text FROM record_breaks() LIMIT 1')
  if (rows[0]) throw notWhole(`entry ${rows[0].seq}`)
}

const notWhole = (where: string): StartProblem =>
  new StartProblem(
    `The record of changes in this archive is not whole (${where}): ` +
      'it was changed after it was written. Nothing was restored. Use an earlier archive.',
  )

const DISK_FULL = '53100'

/** The connection broke: by a crash or stop (class 57P), or with no word at all. */
const isLost = (code: string | undefined, message: string): boolean =>
  /^(57P|08|ECONNRESET|EPIPE)/.test(code ?? '') || (code === undefined && message.startsWith('Connection terminated'))

function inPlainWords(error: unknown): unknown {
  if (error instanceof StartProblem) return error
  const { code, message } = error as { code?: string; message: string }
  const what =
    code === DISK_FULL
      ? 'PostgreSQL has no room left on its disk. Make room and restore again'
      : isLost(code, message)
        ? 'PostgreSQL ended in the midst of it, as it does when its disk is full (its log says why). Make room and restore again'
        : `PostgreSQL refused it: ${message}`
  return new StartProblem(`Nothing was restored, and the database is as empty as before. ${what}.`, { cause: error })
}

import type pg from 'pg'

/** Number of our advisory lock in the product's database: one server process at a time makes a backup. */
const lockNumber = 41_800_003

/** So much is remembered of them; the backups themselves are files. */
const RUNS_KEPT = 100

/** Takes the lock for as long as this connection lasts. Out: false, where another one has it. */
export async function tryBackupLock(database: pg.ClientBase): Promise<boolean> {
  const { rows } = await database.query<{ taken: boolean }>('SELECT pg_try_advisory_lock($1) AS taken', [lockNumber])
  return rows[0]!.taken
}

/** Notes that a backup begins, and that those are lost whose server was killed. Needs the lock. */
export async function beginRun(database: pg.ClientBase, at: Date): Promise<string> {
  await endLostRuns(database, at)
  await database.query(
    `DELETE FROM backup_run WHERE id NOT IN (SELECT id FROM backup_run ORDER BY begun_at DESC LIMIT ${RUNS_KEPT})`,
  )
  const { rows } = await database.query<{ id: string }>('INSERT INTO backup_run (begun_at) VALUES ($1) RETURNING id', [
    at,
  ])
  return rows[0]!.id
}

/** Needs the lock: whoever began what has not ended would have it. */
export async function endLostRuns(database: pg.ClientBase, at: Date): Promise<void> {
  await database.query('UPDATE backup_run SET ended_at = $1, problem = $2 WHERE ended_at IS NULL', [
    at,
    'The server ended while it was being written. No part of it is left.',
  ])
}

export async function endRun(database: pg.ClientBase, id: string, at: Date, problem: string | null): Promise<void> {
  await database.query('UPDATE backup_run SET ended_at = $2, problem = $3 WHERE id = $1', [id, at, problem])
}

interface Runs {
  readonly lastFailure: { at: Date; problem: string } | null
  /** Since when one is being written, by whatever server process. */
  readonly runningSince: Date | null
}

export async function readRuns(database: pg.ClientBase): Promise<Runs> {
  const { rows: failures } = await database.query<{ at: Date; problem: string }>(
    'SELECT ended_at AS at, problem FROM backup_run WHERE problem IS NOT NULL ORDER BY ended_at DESC LIMIT 1',
  )
  const { rows: running } = await database.query<{ since: Date }>(
    `SELECT begun_at AS since FROM backup_run WHERE ended_at IS NULL AND EXISTS (
       SELECT FROM pg_locks WHERE locktype = 'advisory' AND granted AND classid = 0 AND objid = $1 AND objsubid = 1
         AND database = (SELECT oid FROM pg_database WHERE datname = current_database()))
     ORDER BY begun_at DESC LIMIT 1`,
    [lockNumber],
  )
  return { lastFailure: failures[0] ?? null, runningSince: running[0]?.since ?? null }
}

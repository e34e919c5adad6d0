import type pg from 'pg'

/** Key of the advisory lock of whoever fits the model; it goes with the connection. */
const FIT_LOCK = 7_300_014

/** Whether this connection is now the only one that fits. */
export async function tryFitLock(database: pg.Client): Promise<boolean> {
  const { rows } = await database.query<{ locked: boolean }>('SELECT pg_try_advisory_lock($1) AS locked', [FIT_LOCK])
  return rows[0]!.locked
}

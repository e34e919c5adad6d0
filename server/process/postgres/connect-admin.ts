import type pg from 'pg'
import { StartProblem } from '../../config/start-problem.ts'
import { nameInLock } from './folder-lock.ts'
import { adminUrl, type PostgresHome } from './postgres-home.ts'
import { tryConnect } from './try-connect.ts'

/**
 * Connects to the PostgreSQL on the data folder as its superuser.
 * @returns null when it does not take connections at the moment
 * @throws StartProblem when it does not know us
 */
export async function connectAdmin(home: PostgresHome, port: number): Promise<pg.Client | null> {
  try {
    return await tryConnect(adminUrl(home, port), nameInLock())
  } catch (cause) {
    throw new StartProblem(
      `The PostgreSQL on ${home.files} does not let us in with the password in ${home.password} ` +
        `(${(cause as Error).message}). Put ${home.folder} back whole from a backup.`,
      { cause },
    )
  }
}

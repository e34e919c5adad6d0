import type { Context } from '../../context/context.ts'
import { findDatabase } from '../../db/client.ts'
import { DatabaseUnavailable } from '../../errors.ts'

/** Who asks how we are wants to know soon: sooner than any question to a database that is gone would fail. */
const WITHIN_MS = 1_500

/** Fails where the database does not answer. */
export async function checkHealth({ db }: Context): Promise<void> {
  if ((await findDatabase(db, WITHIN_MS)) === 'gone') throw new DatabaseUnavailable()
}

/** Fails where nothing could be stored, too: in a primary that has become a standby, or takes no writes for another reason. */
export async function checkReady({ db }: Context): Promise<void> {
  if ((await findDatabase(db, WITHIN_MS)) !== 'writing') throw new DatabaseUnavailable()
}

import type { Context } from '../../context/context.ts'
import { databaseAnswers } from '../../db/client.ts'
import { DatabaseUnavailable } from '../../errors.ts'

/** Who asks how we are wants to know soon: sooner than any question to a database that is gone would fail. */
const WITHIN_MS = 1_500

/** Asks the database something; fails where it does not answer. */
export async function checkHealth({ db }: Context): Promise<void> {
  if (!(await databaseAnswers(db, WITHIN_MS))) throw new DatabaseUnavailable()
}

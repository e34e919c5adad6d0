import type { Database } from '../../../db/client.ts'
import { countAccounts } from '../../db/accounts.db.ts'

/** Whether nobody has used this database yet: it has no account. */
export async function databaseIsEmpty(db: Database): Promise<boolean> {
  return (await countAccounts(db)) === 0
}

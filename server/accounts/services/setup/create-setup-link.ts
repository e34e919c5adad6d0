import type { Database } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import { replaceSetupLink } from '../../db/setup-links.db.ts'
import { hashToken, newToken } from '../token.ts'

const VALID_MS = 24 * 3_600_000

/** Makes the one-time token that makes the first account; an earlier one ends. Out: the token, valid for a day. */
export async function createSetupLink({ db, clock }: { db: Database; clock: () => Date }): Promise<string> {
  const token = newToken()
  const expiresAt = new Date(clock().getTime() + VALID_MS)
  await inTransaction(db, (tx) => replaceSetupLink(tx, hashToken(token), expiresAt))
  return token
}

import type { Transaction } from '../../db/client.ts'
import type { StoredAccount } from './accounts.db.ts'

export interface StoredHalf extends StoredAccount {
  /** How the first step was passed: password, link, … */
  readonly how: string
}

/** Stores a sign-in whose first step is passed, and drops those that have expired. */
export async function insertHalf(
  tx: Transaction,
  half: { tokenHash: Buffer; accountId: string; how: string; expiresAt: Date },
  now: Date,
): Promise<void> {
  await tx.halfSignIn.deleteMany({ where: { expiresAt: { lte: now } } })
  await tx.halfSignIn.create({ data: { ...half, tokenHash: new Uint8Array(half.tokenHash) } })
}

/** Whose sign-in a token has begun; null for none, one that has expired, or a disabled account. */
export async function readHalf(tx: Transaction, tokenHash: Buffer, now: Date): Promise<StoredHalf | null> {
  const rows = await tx.$queryRaw<StoredHalf[]>`
    SELECT a.id::text AS "accountId", a.name, a.roles, a.soldier_id::text AS "soldierId", a.unit_id::text AS "unitId", h.how
    FROM half_sign_in h JOIN account a ON a.id = h.account_id
    WHERE h.token_hash = ${tokenHash} AND h.expires_at > ${now} AND a.disabled_at IS NULL`
  return rows[0] ?? null
}

/** Uses it up. Out: whether it was there still; of several at once one. */
export async function takeUpHalf(tx: Transaction, tokenHash: Buffer): Promise<boolean> {
  const { count } = await tx.halfSignIn.deleteMany({ where: { tokenHash: new Uint8Array(tokenHash) } })
  return count === 1
}

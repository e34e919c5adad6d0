import type { StoredAccount } from './accounts.db.ts'
import type { Transaction } from './client.ts'

export interface StoredSession extends StoredAccount {
  readonly createdAt: Date
  readonly seenAt: Date
}

export async function insertSession(tx: Transaction, tokenHash: Buffer, accountId: string, now: Date): Promise<void> {
  await tx.session.create({ data: { tokenHash: new Uint8Array(tokenHash), accountId, createdAt: now, seenAt: now } })
}

/** The session of a token and its account; null where there is none. */
export async function readSession(tx: Transaction, tokenHash: Buffer): Promise<StoredSession | null> {
  const rows = await tx.$queryRaw<StoredSession[]>`
    SELECT a.id::text AS "accountId", a.name, a.roles, a.soldier_id::text AS "soldierId", a.unit_id::text AS "unitId",
      s.created_at AS "createdAt", s.seen_at AS "seenAt"
    FROM session s JOIN account a ON a.id = s.account_id WHERE s.token_hash = ${tokenHash}`
  return rows[0] ?? null
}

export async function touchSession(tx: Transaction, tokenHash: Buffer, now: Date): Promise<void> {
  await tx.$executeRaw`UPDATE session SET seen_at = ${now} WHERE token_hash = ${tokenHash}`
}

export async function deleteSession(tx: Transaction, tokenHash: Buffer): Promise<void> {
  await tx.$executeRaw`DELETE FROM session WHERE token_hash = ${tokenHash}`
}

import type { Transaction } from '../../db/client.ts'

/** Replaces any link of the account by a new one. */
export async function replaceInvitation(
  tx: Transaction,
  accountId: string,
  tokenHash: Buffer,
  expiresAt: Date,
): Promise<void> {
  await deleteInvitation(tx, accountId)
  await tx.invitation.create({ data: { accountId, tokenHash: new Uint8Array(tokenHash), expiresAt } })
}

export async function deleteInvitation(tx: Transaction, accountId: string): Promise<void> {
  await tx.invitation.deleteMany({ where: { accountId } })
}

export interface Invited {
  readonly accountId: string
  readonly name: string
  readonly expiresAt: Date
}

/** Whom a link is for; null where there is none, it has expired, or the account is disabled. */
export async function readInvited(tx: Transaction, tokenHash: Buffer, now: Date): Promise<Invited | null> {
  const rows = await tx.$queryRaw<Invited[]>`
    SELECT a.id::text AS "accountId", a.name, i.expires_at AS "expiresAt"
    FROM invitation i JOIN account a ON a.id = i.account_id
    WHERE i.token_hash = ${tokenHash} AND i.expires_at > ${now} AND a.disabled_at IS NULL`
  return rows[0] ?? null
}

/** Uses up a link. Out: whether it was there and could still be used; of several at once one. */
export async function takeUpInvitation(tx: Transaction, tokenHash: Buffer, now: Date): Promise<boolean> {
  const used = await tx.$executeRaw`
    DELETE FROM invitation i USING account a WHERE i.token_hash = ${tokenHash} AND i.expires_at > ${now}
      AND a.id = i.account_id AND a.disabled_at IS NULL`
  return used === 1
}

import type { Transaction } from '../../db/client.ts'
import type { StoredAccount } from './accounts.db.ts'

export interface StoredSession extends StoredAccount {
  readonly createdAt: Date
  readonly seenAt: Date
  /** When whoever holds it last proved who they are; null: before that was asked, or a factor was added since. */
  readonly confirmedAt: Date | null
  /** Good for nothing but setting up the second factor that the account lacks. */
  readonly onlyEnrols: boolean
}

export interface NewSession {
  readonly tokenHash: Buffer
  readonly accountId: string
  readonly createdAt: Date
  readonly network: string
  readonly device: string
  readonly confirmedAt: Date | null
  readonly onlyEnrols: boolean
}

export async function insertSession(tx: Transaction, session: NewSession): Promise<void> {
  const { tokenHash, createdAt } = session
  await tx.session.create({ data: { ...session, tokenHash: new Uint8Array(tokenHash), seenAt: createdAt } })
}

/** The session of a token and its account; null where there is none, or the account is disabled. */
export async function readSession(tx: Transaction, tokenHash: Buffer): Promise<StoredSession | null> {
  const rows = await tx.$queryRaw<StoredSession[]>`
    SELECT a.id::text AS "accountId", a.name, a.roles, a.soldier_id::text AS "soldierId", a.unit_id::text AS "unitId",
      s.created_at AS "createdAt", s.seen_at AS "seenAt", s.confirmed_at AS "confirmedAt", s.only_enrols AS "onlyEnrols"
    FROM session s JOIN account a ON a.id = s.account_id WHERE s.token_hash = ${tokenHash} AND a.disabled_at IS NULL`
  return rows[0] ?? null
}

export interface ListedSession {
  readonly id: string
  readonly createdAt: Date
  readonly seenAt: Date
  readonly network: string
  readonly device: string
  readonly isThisOne: boolean
}

/** The sessions of an account that have not expired: the one asking, known by `tokenHash`, then last seen first. */
export async function listSessions(
  tx: Transaction,
  accountId: string,
  tokenHash: Buffer,
  expired: { seenBefore: Date; createdBefore: Date },
): Promise<ListedSession[]> {
  return tx.$queryRaw<ListedSession[]>`
    SELECT id::text, created_at AS "createdAt", seen_at AS "seenAt", network, device,
      token_hash = ${tokenHash} AS "isThisOne"
    FROM session WHERE account_id = ${accountId}::uuid AND seen_at >= ${expired.seenBefore}
      AND created_at >= ${expired.createdBefore} ORDER BY "isThisOne" DESC, seen_at DESC, id`
}

export async function touchSession(tx: Transaction, tokenHash: Buffer, now: Date): Promise<void> {
  await tx.$executeRaw`UPDATE session SET seen_at = ${now} WHERE token_hash = ${tokenHash}`
}

/** Ends the session of a token, and notifications to its browser. Out: whether there was one. */
export async function deleteSession(tx: Transaction, tokenHash: Buffer): Promise<boolean> {
  await tx.$executeRaw`DELETE FROM push_subscription
    WHERE session_id = (SELECT id FROM session WHERE token_hash = ${tokenHash})`
  const { count } = await tx.session.deleteMany({ where: { tokenHash: new Uint8Array(tokenHash) } })
  return count === 1
}

/** Ends one session of an account, and notifications to its browser. Out: whether there was one. */
export async function deleteSessionOf(tx: Transaction, accountId: string, id: string): Promise<boolean> {
  await tx.pushSubscription.deleteMany({ where: { accountId, sessionId: id } })
  const { count } = await tx.session.deleteMany({ where: { id, accountId } })
  return count === 1
}

/** Ends all sessions of an account, sign-ins halfway, and all notifications to it. Out: how many sessions. */
export async function deleteSessionsOf(tx: Transaction, accountId: string): Promise<number> {
  await tx.halfSignIn.deleteMany({ where: { accountId } })
  await tx.pushSubscription.deleteMany({ where: { accountId } })
  const { count } = await tx.session.deleteMany({ where: { accountId } })
  return count
}

/** Notes that whoever holds a session proved who they are. */
export async function confirmSession(tx: Transaction, tokenHash: Buffer, confirmedAt: Date): Promise<void> {
  await tx.session.updateMany({ where: { tokenHash: new Uint8Array(tokenHash) }, data: { confirmedAt } })
}

/**
 * A factor was added with this session: it is whole from now on, others that were only to add one end, and all others of
 * the account have to be confirmed anew.
 */
export async function raiseSession(tx: Transaction, accountId: string, tokenHash: Buffer): Promise<void> {
  const own = new Uint8Array(tokenHash)
  await tx.session.updateMany({ where: { tokenHash: own }, data: { onlyEnrols: false } })
  await tx.session.deleteMany({ where: { accountId, onlyEnrols: true } })
  await tx.session.updateMany({ where: { accountId, tokenHash: { not: own } }, data: { confirmedAt: null } })
}

/** Ends the sessions of an account beyond the `most` last seen ones. */
export async function deleteOldestSessions(tx: Transaction, accountId: string, most: number): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM session WHERE token_hash IN (SELECT token_hash FROM session WHERE account_id = ${accountId}::uuid
      ORDER BY seen_at DESC, created_at DESC OFFSET ${most})`
}

/** Removes all sessions that have expired, whosesoever. */
export async function deleteExpiredSessions(
  tx: Transaction,
  expired: { seenBefore: Date; createdBefore: Date },
): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM session WHERE seen_at < ${expired.seenBefore} OR created_at < ${expired.createdBefore}`
}

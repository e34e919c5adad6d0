import type { Transaction } from '../../db/client.ts'

export interface Identity {
  readonly id: string
  readonly accountId: string
  /** The account's name. */
  readonly name: string
  readonly followsRules: boolean
}

/** Whose a subject is at a provider; null: nobody's. */
export async function readIdentity(tx: Transaction, providerId: string, subject: string): Promise<Identity | null> {
  const rows = await tx.$queryRaw<Identity[]>`
    SELECT n.id::text, n.account_id::text AS "accountId", a.name, n.follows_rules AS "followsRules"
    FROM identity n JOIN account a ON a.id = n.account_id
    WHERE n.provider_id = ${providerId}::uuid AND n.subject = ${subject}`
  return rows[0] ?? null
}

/** Links an account with a subject. Out: the id of the link; null where the subject or the account has one at this provider. */
export async function insertIdentity(
  tx: Transaction,
  identity: { providerId: string; subject: string; accountId: string; followsRules: boolean; linkedAt: Date },
): Promise<string | null> {
  const { providerId, subject, accountId, followsRules, linkedAt } = identity
  const rows = await tx.$queryRaw<{ id: string }[]>`
    INSERT INTO identity (provider_id, subject, account_id, follows_rules, linked_at)
    VALUES (${providerId}::uuid, ${subject}, ${accountId}::uuid, ${followsRules}, ${linkedAt})
    ON CONFLICT DO NOTHING RETURNING id::text`
  return rows[0]?.id ?? null
}

/** Has an account confirm its mail address anew before more mail goes there. Out: whether any went there. */
export async function stopMail(tx: Transaction, accountId: string): Promise<boolean> {
  const { count } = await tx.mailAddress.updateMany({
    where: { accountId, confirmedAt: { not: null } },
    data: { confirmedAt: null },
  })
  return count > 0
}

export interface OwnLink {
  readonly id: string | null
  readonly providerId: string
  readonly name: string
  readonly linkedAt: Date | null
}

/** The providers an account is linked with, or could be, by name. */
export async function listOwnIdentities(tx: Transaction, accountId: string): Promise<OwnLink[]> {
  return tx.$queryRaw<OwnLink[]>`
    SELECT n.id::text, p.id::text AS "providerId", p.name, n.linked_at AS "linkedAt"
    FROM sign_on_provider p LEFT JOIN identity n ON n.provider_id = p.id AND n.account_id = ${accountId}::uuid
    WHERE p.enabled OR n.id IS NOT NULL ORDER BY lower(p.name), p.id`
}

/** Ends a link of an account, and the sessions opened by it but this one. Out: the provider's name; null where there is no such link. */
export async function deleteIdentity(
  tx: Transaction,
  accountId: string,
  id: string,
  thisSession: Buffer,
): Promise<{ name: string; ended: number } | null> {
  const rows = await tx.$queryRaw<{ name: string }[]>`
    SELECT p.name FROM identity n JOIN sign_on_provider p ON p.id = n.provider_id
    WHERE n.id = ${id}::uuid AND n.account_id = ${accountId}::uuid FOR UPDATE OF n`
  if (!rows[0]) return null
  const ended = await tx.$executeRaw`
    DELETE FROM session WHERE token_hash <> ${thisSession}
      AND token_hash IN (SELECT token_hash FROM sign_on_session WHERE identity_id = ${id}::uuid)`
  await tx.identity.delete({ where: { id } })
  return { name: rows[0].name, ended }
}

/** The soldier of a roster number, as a list names them, and whether another account than this one is theirs; null: nobody has it. */
export async function readSoldierByNumber(
  tx: Transaction,
  rosterNumber: string,
  accountId: string | null,
): Promise<{ id: string; soldier: string; isTaken: boolean } | null> {
  const rows = await tx.$queryRaw<{ id: string; soldier: string; isTaken: boolean }[]>`
    SELECT s.id::text, s.roster_number || ' ' || s.family_name || ', ' || s.given_name AS soldier,
      EXISTS (SELECT FROM account a WHERE a.soldier_id = s.id AND a.id IS DISTINCT FROM ${accountId}::uuid) AS "isTaken"
    FROM soldier s WHERE s.roster_number = ${rosterNumber}`
  return rows[0] ?? null
}

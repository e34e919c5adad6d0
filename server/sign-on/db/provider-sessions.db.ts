import type { Transaction } from '../../db/client.ts'

/** Notes what a session that a provider opened is called there. */
export async function insertProviderSession(
  tx: Transaction,
  session: { tokenHash: Buffer; identityId: string; providerSid: string | null; idToken: Buffer },
): Promise<void> {
  const { tokenHash, idToken } = session
  await tx.signOnSession.create({
    data: { ...session, tokenHash: new Uint8Array(tokenHash), idToken: new Uint8Array(idToken) },
  })
}

/** The provider that opened a session, and the sealed ID token it came with; null where a password did. */
export async function readProviderSession(
  tx: Transaction,
  tokenHash: Buffer,
): Promise<{ providerId: string; idToken: Uint8Array } | null> {
  const rows = await tx.$queryRaw<{ providerId: string; idToken: Uint8Array }[]>`
    SELECT n.provider_id::text AS "providerId", s.id_token AS "idToken"
    FROM sign_on_session s JOIN identity n ON n.id = s.identity_id WHERE s.token_hash = ${tokenHash}`
  return rows[0] ?? null
}

/** Takes a provider's word once. Out: false where it was given before. */
export async function takeLogoutToken(
  tx: Transaction,
  providerId: string,
  { tokenId, expiresAt }: { tokenId: string; expiresAt: Date },
  now: Date,
): Promise<boolean> {
  await tx.logoutToken.deleteMany({ where: { expiresAt: { lte: now } } })
  const { count } = await tx.logoutToken.createMany({
    data: [{ providerId, tokenId, expiresAt }],
    skipDuplicates: true,
  })
  return count === 1
}

/**
 * Ends the sessions that a provider opened: of a subject, of one session there, or of a subject in one session. A session whose
 * id there we were not told ends with its subject. Out: the accounts, with how many each.
 */
export async function endProviderSessions(
  tx: Transaction,
  providerId: string,
  { subject, providerSid }: { subject: string | null; providerSid: string | null },
): Promise<{ accountId: string; ended: number }[]> {
  return tx.$queryRaw<{ accountId: string; ended: number }[]>`
    WITH gone AS (DELETE FROM session x USING sign_on_session s JOIN identity n ON n.id = s.identity_id
      WHERE x.token_hash = s.token_hash AND n.provider_id = ${providerId}::uuid
        AND (${subject}::text IS NULL OR n.subject = ${subject})
        AND (${providerSid}::text IS NULL OR s.provider_sid = ${providerSid}
          OR (s.provider_sid IS NULL AND ${subject}::text IS NOT NULL))
      RETURNING x.account_id)
    SELECT account_id::text AS "accountId", count(*)::int AS ended FROM gone GROUP BY 1 ORDER BY 1`
}

import type { Transaction } from '../../db/client.ts'

export interface Attempt {
  readonly providerId: string
  readonly state: string
  readonly nonce: string
  readonly verifier: string
  readonly returnPath: string
  readonly sessionHash: Uint8Array | null
  readonly linksAccountId: string | null
  readonly expiresAt: Date
}

/** Keeps what a browser was sent to a provider with; what has expired goes. */
export async function insertAttempt(tx: Transaction, tokenHash: Buffer, attempt: Attempt, now: Date): Promise<void> {
  await tx.signOnAttempt.deleteMany({ where: { expiresAt: { lte: now } } })
  const sessionHash = attempt.sessionHash && new Uint8Array(attempt.sessionHash)
  await tx.signOnAttempt.create({ data: { ...attempt, sessionHash, tokenHash: new Uint8Array(tokenHash) } })
}

/** Takes an attempt out, so that it serves once; null where it is unknown, was taken before, or has expired. */
export async function takeAttempt(tx: Transaction, tokenHash: Buffer, now: Date): Promise<Attempt | null> {
  const rows = await tx.$queryRaw<Attempt[]>`
    DELETE FROM sign_on_attempt WHERE token_hash = ${tokenHash}
    RETURNING provider_id::text AS "providerId", state, nonce, verifier, return_path AS "returnPath",
      session_hash AS "sessionHash", links_account_id::text AS "linksAccountId", expires_at AS "expiresAt"`
  const [attempt] = rows
  return attempt && attempt.expiresAt > now ? attempt : null
}

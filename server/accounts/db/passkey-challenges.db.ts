import type { Transaction } from '../../db/client.ts'

/** What a challenge is for; one made for one thing is good for no other. */
export type ChallengePurpose = 'add' | 'second' | 'alone' | 'confirm'

export interface Challenge {
  readonly hash: Buffer
  readonly purpose: ChallengePurpose
  /** Hash of the token of the session, or of the sign-in halfway, that asked for it; null: nobody is known yet. */
  readonly boundTo: Buffer | null
}

/** Stores a challenge, and drops those that have expired. */
export async function insertChallenge(
  tx: Transaction,
  { hash, purpose, boundTo }: Challenge,
  now: Date,
  expiresAt: Date,
): Promise<void> {
  await tx.passkeyChallenge.deleteMany({ where: { expiresAt: { lte: now } } })
  await tx.passkeyChallenge.create({
    data: { challengeHash: new Uint8Array(hash), purpose, boundTo: boundTo && new Uint8Array(boundTo), expiresAt },
  })
}

/** Uses a challenge up. Out: whether it was there for this purpose and for whoever asks, and had not expired. */
export async function takeUpChallenge(
  tx: Transaction,
  { hash, purpose, boundTo }: Challenge,
  now: Date,
): Promise<boolean> {
  const used = await tx.$executeRaw`
    DELETE FROM passkey_challenge WHERE challenge_hash = ${hash} AND purpose = ${purpose}
      AND bound_to IS NOT DISTINCT FROM ${boundTo} AND expires_at > ${now}`
  return used === 1
}

import type { Transaction } from '../../db/client.ts'

/** Replaces any set-up link there is by a new one. */
export async function replaceSetupLink(tx: Transaction, tokenHash: Buffer, expiresAt: Date): Promise<void> {
  await tx.$executeRaw`DELETE FROM setup_link`
  await tx.setupLink.create({ data: { tokenHash: new Uint8Array(tokenHash), expiresAt } })
}

/** Uses up a set-up link. Out: whether it was there and had not expired. */
export async function useSetupLink(tx: Transaction, tokenHash: Buffer, now: Date): Promise<boolean> {
  const used = await tx.$executeRaw`DELETE FROM setup_link WHERE token_hash = ${tokenHash} AND expires_at > ${now}`
  return used === 1
}

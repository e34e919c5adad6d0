import type { Transaction } from '../../db/client.ts'

/** Whether an account was signed in with this device since a time. */
export async function isKnownDevice(
  tx: Transaction,
  tokenHash: Buffer,
  accountId: string,
  since: Date,
): Promise<boolean> {
  const count = await tx.knownDevice.count({
    where: { tokenHash: new Uint8Array(tokenHash), accountId, seenAt: { gte: since } },
  })
  return count === 1
}

/** Knows a device from now on, and forgets those of the account beyond the `most` last seen ones. */
export async function keepDevice(
  tx: Transaction,
  tokenHash: Buffer,
  accountId: string,
  now: Date,
  most: number,
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO known_device (token_hash, account_id, seen_at) VALUES (${tokenHash}, ${accountId}::uuid, ${now})
    ON CONFLICT (token_hash) DO UPDATE SET seen_at = EXCLUDED.seen_at`
  await tx.$executeRaw`
    DELETE FROM known_device WHERE token_hash IN (SELECT token_hash FROM known_device
      WHERE account_id = ${accountId}::uuid ORDER BY seen_at DESC, token_hash OFFSET ${most})`
}

/** Removes the devices an account is known on. */
export async function removeKnownDevices(tx: Transaction, accountId: string): Promise<void> {
  await tx.knownDevice.deleteMany({ where: { accountId } })
}

import type { Transaction } from '../../db/client.ts'

/** Replaces the codes of an account. In: their hashes by number. */
export async function replaceRecoveryCodes(
  tx: Transaction,
  accountId: string,
  hashes: readonly string[],
  createdAt: Date,
): Promise<void> {
  await deleteRecoveryCodes(tx, accountId)
  const data = hashes.map((codeHash, number) => ({ accountId, number, codeHash, createdAt }))
  await tx.recoveryCode.createMany({ data })
}

/** The hash of an unused code by its number; null where it is used or there is none. */
export async function readRecoveryCode(tx: Transaction, accountId: string, number: number): Promise<string | null> {
  const code = await tx.recoveryCode.findFirst({ where: { accountId, number, usedAt: null } })
  return code?.codeHash ?? null
}

/** Uses a code up. Out: false where it was used, or replaced, meanwhile. */
export async function takeUpRecoveryCode(
  tx: Transaction,
  accountId: string,
  codeHash: string,
  usedAt: Date,
): Promise<boolean> {
  const { count } = await tx.recoveryCode.updateMany({ where: { accountId, codeHash, usedAt: null }, data: { usedAt } })
  return count === 1
}

export async function deleteRecoveryCodes(tx: Transaction, accountId: string): Promise<void> {
  await tx.recoveryCode.deleteMany({ where: { accountId } })
}

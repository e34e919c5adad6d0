import type { StoredAccount } from '../../accounts/db/accounts.db.ts'
import type { Transaction } from '../../db/client.ts'

/** Makes the link of an account; an earlier one ends. */
export async function replaceCalendarLink(
  tx: Transaction,
  accountId: string,
  tokenHash: Buffer,
  createdAt: Date,
): Promise<void> {
  const link = { tokenHash: new Uint8Array(tokenHash), createdAt }
  await tx.calendarLink.upsert({ where: { accountId }, create: { accountId, ...link }, update: link })
}

/** Out: whether there was one. */
export async function deleteCalendarLink(tx: Transaction, accountId: string): Promise<boolean> {
  return (await tx.calendarLink.deleteMany({ where: { accountId } })).count === 1
}

export async function readCalendarLink(tx: Transaction, accountId: string): Promise<{ createdAt: Date } | null> {
  return tx.calendarLink.findUnique({ where: { accountId }, select: { createdAt: true } })
}

/** Whose link a token is; null for an unknown one, or one of a disabled account. */
export async function readCalendarOwner(
  tx: Transaction,
  tokenHash: Buffer,
): Promise<Pick<StoredAccount, 'accountId' | 'name' | 'roles' | 'soldierId' | 'unitId'> | null> {
  const link = await tx.calendarLink.findUnique({
    where: { tokenHash: new Uint8Array(tokenHash), account: { disabledAt: null } },
    select: { account: { select: { id: true, name: true, roles: true, soldierId: true, unitId: true } } },
  })
  if (!link) return null
  const { id, ...account } = link.account
  return { accountId: id, ...account }
}

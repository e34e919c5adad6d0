import type { Transaction } from '../../db/client.ts'

export interface StoredPasskey {
  readonly id: string
  readonly accountId: string
  readonly credentialId: Buffer
  readonly publicKey: Uint8Array<ArrayBuffer>
  readonly signCount: number
  readonly transports: string[]
  readonly name: string
  readonly createdAt: Date
  readonly lastUsedAt: Date | null
}

/** The passkeys of an account, the first added first. */
export async function listPasskeys(tx: Transaction, accountId: string): Promise<StoredPasskey[]> {
  const passkeys = await tx.passkey.findMany({ where: { accountId }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }] })
  return passkeys.map(toStored)
}

/** The passkey of a credential, whosesoever; null where none is known. */
export async function readPasskey(tx: Transaction, credentialId: Buffer): Promise<StoredPasskey | null> {
  const passkey = await tx.passkey.findUnique({ where: { credentialId: new Uint8Array(credentialId) } })
  return passkey && toStored(passkey)
}

const toStored = <Row extends { credentialId: Uint8Array; signCount: bigint }>(row: Row) => ({
  ...row,
  credentialId: Buffer.from(row.credentialId),
  signCount: Number(row.signCount),
})

export async function insertPasskey(
  tx: Transaction,
  passkey: Omit<StoredPasskey, 'id' | 'lastUsedAt'>,
): Promise<string> {
  const data = { ...passkey, credentialId: new Uint8Array(passkey.credentialId) }
  return (await tx.passkey.create({ data, select: { id: true } })).id
}

/**
 * Notes that a passkey signed. Out: false where it is gone, or signed with a later count meanwhile: a copy of it may be
 * about (passkeys that do not count stay at 0).
 */
export async function touchPasskey(
  tx: Transaction,
  { id, signCount, now }: { id: string; signCount: number; now: Date },
): Promise<boolean> {
  const { count } = await tx.passkey.updateMany({
    where: { id, OR: [{ signCount: { lt: signCount } }, { signCount: 0 }] },
    data: { signCount, lastUsedAt: now },
  })
  return count === 1
}

/** Takes one passkey of an account away. Out: its name; null where there is none. */
export async function deletePasskey(tx: Transaction, accountId: string, id: string): Promise<string | null> {
  const rows = await tx.$queryRaw<{ name: string }[]>`
    DELETE FROM passkey WHERE id = ${id}::uuid AND account_id = ${accountId}::uuid RETURNING name`
  return rows[0]?.name ?? null
}

/** Takes all passkeys of an account away. Out: how many. */
export async function deletePasskeysOf(tx: Transaction, accountId: string): Promise<number> {
  return (await tx.passkey.deleteMany({ where: { accountId } })).count
}

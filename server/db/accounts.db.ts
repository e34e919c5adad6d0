import type { Transaction } from './client.ts'

export interface StoredAccount {
  readonly accountId: string
  readonly name: string
  readonly roles: string[]
  readonly soldierId: string | null
  readonly unitId: string | null
}

/** The account of this name, whatever the case, with its password hash; null where there is none. */
export async function readAccountByName(
  tx: Transaction,
  name: string,
): Promise<(StoredAccount & { readonly passwordHash: string }) | null> {
  const rows = await tx.$queryRaw<(StoredAccount & { passwordHash: string })[]>`
    SELECT id::text AS "accountId", name, roles, soldier_id::text AS "soldierId", unit_id::text AS "unitId",
      password_hash AS "passwordHash" FROM account WHERE lower(name) = lower(${name})`
  return rows[0] ?? null
}

export interface NewAccount {
  readonly name: string
  readonly passwordHash: string
  readonly roles: readonly string[]
  readonly soldierId: string | null
  readonly unitId: string | null
  readonly createdAt: Date
}

export async function insertAccount(tx: Transaction, account: NewAccount): Promise<string> {
  const { id } = await tx.account.create({ data: { ...account, roles: [...account.roles] }, select: { id: true } })
  return id
}

export async function countAccounts(tx: Transaction): Promise<number> {
  return tx.account.count()
}

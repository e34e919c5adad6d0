import type { Transaction } from '../../db/client.ts'

export interface StoredAccount {
  readonly accountId: string
  readonly name: string
  readonly roles: string[]
  readonly soldierId: string | null
  readonly unitId: string | null
}

export interface AccountToSignIn extends StoredAccount {
  /** Null: has not chosen a password yet. */
  readonly passwordHash: string | null
  readonly isDisabled: boolean
}

/** The account of this name, whatever the case, with its password hash; null where there is none. */
export async function readAccountByName(tx: Transaction, name: string): Promise<AccountToSignIn | null> {
  const rows = await tx.$queryRaw<AccountToSignIn[]>`
    SELECT id::text AS "accountId", name, roles, soldier_id::text AS "soldierId", unit_id::text AS "unitId",
      password_hash AS "passwordHash", disabled_at IS NOT NULL AS "isDisabled"
    FROM account WHERE lower(name) = lower(${name})`
  return rows[0] ?? null
}

/** The account of an id that can sign in; null where there is none. */
export async function readAccount(tx: Transaction, id: string): Promise<StoredAccount | null> {
  const rows = await tx.$queryRaw<StoredAccount[]>`
    SELECT id::text AS "accountId", name, roles, soldier_id::text AS "soldierId", unit_id::text AS "unitId"
    FROM account WHERE id = ${id}::uuid AND disabled_at IS NULL`
  return rows[0] ?? null
}

/** The names of all accounts. */
export async function listAccountNames(tx: Transaction): Promise<string[]> {
  return (await tx.account.findMany({ select: { name: true } })).map(({ name }) => name)
}

/** The accounts of the training office that can sign in, by name. */
export async function readAccountsOfOffice(tx: Transaction): Promise<StoredAccount[]> {
  return tx.$queryRaw<StoredAccount[]>`
    SELECT id::text AS "accountId", name, roles, soldier_id::text AS "soldierId", unit_id::text AS "unitId"
    FROM account WHERE 'office' = ANY(roles) AND disabled_at IS NULL ORDER BY name`
}

/** Keeps an account as it is until the end of the transaction. Out: whether it is enabled and has still this password. */
export async function lockUsableAccount(tx: Transaction, id: string, passwordHash: string | null): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    SELECT 1 AS one FROM account WHERE id = ${id}::uuid AND disabled_at IS NULL AND password_hash = ${passwordHash} FOR SHARE`
  return rows.length === 1
}

/** Keeps an account as it is until the end of the transaction. Out: whether it is enabled. */
export async function lockEnabledAccount(tx: Transaction, id: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    SELECT 1 AS one FROM account WHERE id = ${id}::uuid AND disabled_at IS NULL FOR SHARE`
  return rows.length === 1
}

export interface NewAccount {
  readonly name: string
  /** Null: has yet to choose a password. */
  readonly passwordHash: string | null
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

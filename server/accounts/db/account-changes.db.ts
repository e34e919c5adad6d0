import type { Transaction } from '../../db/client.ts'
import type { StoredAccount } from './accounts.db.ts'

/** Key of the advisory lock under which accounts are managed. */
const ACCOUNTS_LOCK = 7_300_002

export interface ManagedAccount extends StoredAccount {
  readonly isDisabled: boolean
  readonly hasPassword: boolean
}

/** Until the end of the transaction nobody else manages accounts: two administrators cannot take each other's role. */
export async function lockAccounts(tx: Transaction): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(${ACCOUNTS_LOCK}::bigint)`
}

/** An account as it is, locked until the end of the transaction; null where there is none. */
export async function lockAccount(tx: Transaction, id: string): Promise<ManagedAccount | null> {
  const rows = await tx.$queryRaw<ManagedAccount[]>`
    SELECT id::text AS "accountId", name, roles, soldier_id::text AS "soldierId", unit_id::text AS "unitId",
      disabled_at IS NOT NULL AS "isDisabled", password_hash IS NOT NULL AS "hasPassword"
    FROM account WHERE id = ${id}::uuid FOR UPDATE`
  return rows[0] ?? null
}

/** Whether another account than this one (null: any) belongs to a soldier. */
export async function isSoldierTaken(tx: Transaction, soldierId: string, accountId: string | null): Promise<boolean> {
  const owner = await tx.account.findUnique({ where: { soldierId }, select: { id: true } })
  return owner !== null && owner.id !== accountId
}

/** How many accounts can administer: with the role, a password, and not disabled. */
export async function countAdministrators(tx: Transaction): Promise<number> {
  return tx.account.count({
    where: { roles: { has: 'administrator' }, disabledAt: null, passwordHash: { not: null } },
  })
}

export async function saveReach(
  tx: Transaction,
  id: string,
  { roles, soldierId, unitId }: { roles: readonly string[]; soldierId: string | null; unitId: string | null },
): Promise<void> {
  await tx.account.update({ where: { id }, data: { roles: [...roles], soldierId, unitId } })
}

/** In: since when it is disabled; null enables it. */
export async function saveDisabled(tx: Transaction, id: string, disabledAt: Date | null): Promise<void> {
  await tx.account.update({ where: { id }, data: { disabledAt } })
}

/** In: null takes the password away. */
export async function savePassword(tx: Transaction, id: string, passwordHash: string | null): Promise<void> {
  await tx.account.update({ where: { id }, data: { passwordHash } })
}

/** The Argon2id hash of an account's password; null where it has none or is disabled. */
export async function readPasswordHash(tx: Transaction, id: string): Promise<string | null> {
  const account = await tx.account.findFirst({ where: { id, disabledAt: null }, select: { passwordHash: true } })
  return account?.passwordHash ?? null
}

/** Names to do with an account, that its password must not be made of: its own, its soldier's, those of its units. */
export async function readNamesAround(tx: Transaction, id: string): Promise<string[]> {
  const [row] = await tx.$queryRaw<{ names: string[] }[]>`
    SELECT array_remove(ARRAY[a.name, s.roster_number, s.family_name, s.given_name]
      || ARRAY(SELECT above.name FROM unit u JOIN unit above ON above.id = ANY(u.lineage) WHERE u.id = a.unit_id), NULL)
      AS names
    FROM account a LEFT JOIN soldier s ON s.id = a.soldier_id WHERE a.id = ${id}::uuid`
  return row?.names ?? []
}

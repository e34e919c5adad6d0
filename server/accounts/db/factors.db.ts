import type { Transaction } from '../../db/client.ts'

/** What second factors an account has. */
export interface Factors {
  readonly app: boolean
  readonly passkey: boolean
  /** Recovery codes left. They come with a factor and are none by themselves. */
  readonly recoveryCodes: number
}

export async function readFactors(tx: Transaction, accountId: string): Promise<Factors> {
  const [row] = await tx.$queryRaw<[Factors]>`
    SELECT EXISTS (SELECT FROM authenticator_app WHERE account_id = ${accountId}::uuid AND confirmed_at IS NOT NULL) AS app,
      EXISTS (SELECT FROM passkey WHERE account_id = ${accountId}::uuid) AS passkey,
      (SELECT count(*)::int FROM recovery_code WHERE account_id = ${accountId}::uuid AND used_at IS NULL) AS "recoveryCodes"`
  return row
}

export const hasFactor = ({ app, passkey }: Factors): boolean => app || passkey

export interface FactorRule {
  readonly role: string
  /** YYYY-MM-DD. */
  readonly fromDay: string
}

/** Which roles need a second factor, by role. */
export async function readFactorRules(tx: Transaction): Promise<FactorRule[]> {
  return tx.$queryRaw<FactorRule[]>`SELECT role, from_day::text AS "fromDay" FROM factor_rule ORDER BY role`
}

export async function replaceFactorRules(tx: Transaction, rules: readonly FactorRule[]): Promise<void> {
  await tx.factorRule.deleteMany()
  await tx.factorRule.createMany({ data: rules.map(({ role, fromDay }) => ({ role, fromDay: new Date(fromDay) })) })
}

/** By role: how many accounts can sign in, and how many of them have no second factor. */
export async function countWithout(tx: Transaction): Promise<{ role: string; accounts: number; without: number }[]> {
  return tx.$queryRaw`
    SELECT role, count(*)::int AS accounts, (count(*) FILTER (WHERE NOT EXISTS (
        SELECT FROM authenticator_app f WHERE f.account_id = a.id AND f.confirmed_at IS NOT NULL)
      AND NOT EXISTS (SELECT FROM passkey p WHERE p.account_id = a.id)))::int AS without
    FROM account a CROSS JOIN unnest(a.roles) AS role WHERE a.disabled_at IS NULL GROUP BY role`
}

export interface FactorReset {
  readonly at: Date
  readonly by: string
  readonly reason: string
}

/** Notes for the owner that the second factors were taken away; null: they know. */
export async function saveFactorReset(tx: Transaction, accountId: string, reset: FactorReset | null): Promise<void> {
  await tx.factorReset.deleteMany({ where: { accountId } })
  if (reset) await tx.factorReset.create({ data: { accountId, ...reset } })
}

export async function readFactorReset(tx: Transaction, accountId: string): Promise<FactorReset | null> {
  return tx.factorReset.findUnique({ where: { accountId }, select: { at: true, by: true, reason: true } })
}

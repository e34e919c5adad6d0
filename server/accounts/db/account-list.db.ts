import type { Account, AccountQuery } from '../../contract/accounts/accounts.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

interface Page {
  readonly limit: number
  readonly after: string | null
}

const instant = (column: Prisma.Sql): Prisma.Sql =>
  Prisma.sql`to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`

const state = Prisma.sql`CASE WHEN a.disabled_at IS NOT NULL THEN 'disabled' WHEN a.password_hash IS NULL
  AND NOT EXISTS (SELECT FROM identity n WHERE n.account_id = a.id) THEN 'invited' ELSE 'active' END`

/** A page of accounts by name, whatever its case. In: how the name begins, the state; `after` a name in lower case. */
export async function listAccounts(
  tx: Transaction,
  filter: Pick<AccountQuery, 'q' | 'state'>,
  page: Page,
  now: Date,
): Promise<(Account & { readonly sortKey: string })[]> {
  const conditions = [Prisma.sql`true`]
  if (filter.q) conditions.push(Prisma.sql`starts_with(lower(a.name), lower(${filter.q}))`)
  if (filter.state) conditions.push(Prisma.sql`${state} = ${filter.state}`)
  if (page.after !== null) conditions.push(Prisma.sql`lower(a.name) > ${page.after}`)
  return tx.$queryRaw<(Account & { sortKey: string })[]>`
    SELECT a.id::text, a.name, lower(a.name) AS "sortKey", a.roles, a.soldier_id::text AS "soldierId",
      a.unit_id::text AS "unitId", s.roster_number || ' ' || s.family_name || ', ' || s.given_name AS soldier,
      ${state} AS state, EXISTS (SELECT FROM authenticator_app f WHERE f.account_id = a.id AND f.confirmed_at IS NOT NULL)
        OR EXISTS (SELECT FROM passkey p WHERE p.account_id = a.id) AS "hasFactor",
      ARRAY(SELECT p.name FROM identity n JOIN sign_on_provider p ON p.id = n.provider_id WHERE n.account_id = a.id
        ORDER BY lower(p.name)) AS "linkedWith",
      (SELECT ${instant(Prisma.sql`i.expires_at`)} FROM invitation i
        WHERE i.account_id = a.id AND i.expires_at > ${now}) AS "linkExpiresAt",
      (SELECT ${instant(Prisma.sql`max(x.seen_at)`)} FROM session x WHERE x.account_id = a.id) AS "lastSeenAt"
    FROM account a LEFT JOIN soldier s ON s.id = a.soldier_id
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY lower(a.name) LIMIT ${page.limit}`
}

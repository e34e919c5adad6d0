import type { Transaction } from '../../db/client.ts'
import type { StoredAccount } from './accounts.db.ts'

export interface NewToken {
  readonly accountId: string
  readonly tokenHash: Buffer
  readonly name: string
  readonly scopes: readonly string[]
  readonly unitId: string | null
  readonly createdAt: Date
  readonly expiresAt: Date
}

export async function insertToken(tx: Transaction, token: NewToken): Promise<string> {
  const data = { ...token, tokenHash: new Uint8Array(token.tokenHash), scopes: [...token.scopes] }
  const { id } = await tx.scriptToken.create({ data, select: { id: true } })
  return id
}

export interface ListedToken {
  readonly id: string
  readonly name: string
  readonly scopes: string[]
  readonly unitId: string | null
  readonly createdAt: Date
  readonly expiresAt: Date
  /** YYYY-MM-DD. */
  readonly lastUsedOn: string | null
}

/** The tokens of an account by name, expired ones too. */
export async function listTokens(tx: Transaction, accountId: string): Promise<ListedToken[]> {
  return tx.$queryRaw<ListedToken[]>`
    SELECT id::text, name, scopes, unit_id::text AS "unitId", created_at AS "createdAt", expires_at AS "expiresAt",
      last_used_on::text AS "lastUsedOn"
    FROM script_token WHERE account_id = ${accountId}::uuid ORDER BY lower(name), id`
}

export interface StoredToken extends StoredAccount {
  readonly tokenId: string
  readonly tokenName: string
  readonly scopes: string[]
  readonly tokenUnitId: string | null
  /** Whether its owner still reaches the unit it is for. */
  readonly reachesUnit: boolean
  readonly expiresAt: Date
  readonly lastUsedOn: string | null
}

/** A token with its owner as they are now; null for an unknown one, or one of a disabled account. */
export async function readToken(tx: Transaction, tokenHash: Buffer): Promise<StoredToken | null> {
  const rows = await tx.$queryRaw<StoredToken[]>`
    SELECT a.id::text AS "accountId", a.name, a.roles, a.soldier_id::text AS "soldierId", a.unit_id::text AS "unitId",
      t.id::text AS "tokenId", t.name AS "tokenName", t.scopes, t.unit_id::text AS "tokenUnitId",
      t.unit_id IS NULL OR 'office' = ANY(a.roles) OR a.roles && ARRAY['leader', 'commander']
        AND EXISTS (SELECT FROM unit u WHERE u.id = t.unit_id AND a.unit_id = ANY(u.lineage)) AS "reachesUnit",
      t.expires_at AS "expiresAt", t.last_used_on::text AS "lastUsedOn"
    FROM script_token t JOIN account a ON a.id = t.account_id
    WHERE t.token_hash = ${tokenHash} AND a.disabled_at IS NULL`
  return rows[0] ?? null
}

/** Notes the day a token was used. */
export async function touchToken(tx: Transaction, id: string, day: string): Promise<void> {
  await tx.$executeRaw`UPDATE script_token SET last_used_on = ${day}::date WHERE id = ${id}::uuid`
}

/** Ends one token of an account. Out: its name; null where there is none. */
export async function deleteToken(tx: Transaction, accountId: string, id: string): Promise<string | null> {
  const rows = await tx.$queryRaw<{ name: string }[]>`
    DELETE FROM script_token WHERE id = ${id}::uuid AND account_id = ${accountId}::uuid RETURNING name`
  return rows[0]?.name ?? null
}

/** Ends all tokens of an account. Out: how many. */
export async function deleteTokensOf(tx: Transaction, accountId: string): Promise<number> {
  return (await tx.scriptToken.deleteMany({ where: { accountId } })).count
}

import type { StoredAccount } from '../../accounts/db/accounts.db.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'

export interface StoredAddress {
  readonly address: string
  readonly confirmedAt: Date | null
  readonly refusedAt: Date | null
}

/** Where mail to an account goes; null: it has given no address. */
export async function readAddress(tx: Transaction, accountId: string): Promise<StoredAddress | null> {
  return tx.mailAddress.findUnique({
    where: { accountId },
    select: { address: true, confirmedAt: true, refusedAt: true },
  })
}

/** Takes an address in place of the one before; it waits to be confirmed. */
export async function replaceAddress(tx: Transaction, accountId: string, address: string, at: Date): Promise<void> {
  const fresh = { address, setAt: at, confirmedAt: null, refusedAt: null, toldLapsesThrough: null }
  await tx.mailAddress.upsert({ where: { accountId }, create: { accountId, ...fresh }, update: fresh })
  await deleteCode(tx, accountId)
}

export async function deleteAddress(tx: Transaction, accountId: string): Promise<void> {
  await tx.mailAddress.deleteMany({ where: { accountId } })
  await deleteCode(tx, accountId)
}

export async function confirmAddress(tx: Transaction, accountId: string, at: Date): Promise<void> {
  await tx.mailAddress.update({ where: { accountId }, data: { confirmedAt: at, refusedAt: null } })
  await deleteCode(tx, accountId)
}

/** Stops mail to an address, where it is still that of the account. */
export async function refuseAddress(tx: Transaction, accountId: string, address: string, at: Date): Promise<void> {
  await tx.mailAddress.updateMany({ where: { accountId, address }, data: { refusedAt: at } })
}

/** Remembers up to which day lapses were told of. */
export async function tellLapses(tx: Transaction, accountId: string, through: string): Promise<void> {
  await tx.mailAddress.updateMany({ where: { accountId }, data: { toldLapsesThrough: toDate(through) } })
}

export async function replaceCode(tx: Transaction, accountId: string, hash: Buffer, expiresAt: Date): Promise<void> {
  const code = { codeHash: new Uint8Array(hash), expiresAt, tries: 0 }
  await tx.mailCode.upsert({ where: { accountId }, create: { accountId, ...code }, update: code })
}

async function deleteCode(tx: Transaction, accountId: string): Promise<void> {
  await tx.mailCode.deleteMany({ where: { accountId } })
}

/** Counts a try at the code of an account. Out: its hash and how many tries there were with this one; null: there is none in force. */
export async function tryCode(
  tx: Transaction,
  accountId: string,
  now: Date,
): Promise<{ hash: Buffer; tries: number } | null> {
  const [row] = await tx.$queryRaw<{ hash: Uint8Array; tries: number }[]>`
    UPDATE mail_code SET tries = tries + 1
    WHERE account_id = ${accountId}::uuid AND expires_at > ${now} AND tries < 1000
    RETURNING code_hash AS hash, tries::int`
  return row ? { hash: Buffer.from(row.hash), tries: row.tries } : null
}

/** What an account has chosen, by kind. */
export async function readChoices(tx: Transaction, accountId: string): Promise<Record<string, string>> {
  const rows = await tx.mailChoice.findMany({ where: { accountId } })
  return Object.fromEntries(rows.map(({ kind, timing }) => [kind, timing]))
}

export async function saveChoice(tx: Transaction, accountId: string, kind: string, timing: string): Promise<void> {
  await tx.mailChoice.upsert({
    where: { accountId_kind: { accountId, kind } },
    create: { accountId, kind, timing },
    update: { timing },
  })
}

/** An account as mail to it is written: who it is now, where mail goes, what it has chosen, and the zone of its unit. */
export interface Addressee extends StoredAccount, StoredAddress {
  readonly choices: Readonly<Record<string, string>>
  /** YYYY-MM-DD. */
  readonly toldLapsesThrough: string | null
  readonly zone: string
}

/** What holds where an account is not of one unit, or that says no zone. */
export interface Here {
  /** YYYY-MM-DD, for the unit of a soldier on that day. */
  readonly today: string
  readonly timeZone: string
}

/** What follows SELECT in SQL of accounts that may sign in and have an address. The zone is that of the unit led, else of the soldier's, else of the top. */
const addressees = ({ today, timeZone }: Here, condition: Prisma.Sql): Prisma.Sql => Prisma.sql`
  a.id::text AS "accountId", a.name, a.roles, a.soldier_id::text AS "soldierId", a.unit_id::text AS "unitId",
    m.address, m.confirmed_at AS "confirmedAt", m.refused_at AS "refusedAt",
    m.told_lapses_through::text AS "toldLapsesThrough",
    (SELECT COALESCE(json_object_agg(c.kind, c.timing), '{}') FROM mail_choice c WHERE c.account_id = a.id) AS choices,
    COALESCE((SELECT above.time_zone FROM unit u CROSS JOIN LATERAL unnest(u.lineage) WITH ORDINALITY AS line(id, height)
      JOIN unit above ON above.id = line.id
      WHERE u.id = COALESCE(a.unit_id, (SELECT p.unit_id FROM soldier_period p WHERE p.soldier_id = a.soldier_id
        AND daterange(p.from_day, p.through_day, '[]') @> ${today}::date),
        (SELECT id FROM unit WHERE parent_id IS NULL ORDER BY name, id LIMIT 1))
      AND above.time_zone IS NOT NULL ORDER BY height LIMIT 1), ${timeZone}) AS zone
  FROM mail_address m JOIN account a ON a.id = m.account_id
  WHERE a.disabled_at IS NULL AND ${condition}`

/** Null where the account has no address (any more) or may not sign in. */
export async function readAddressee(tx: Transaction, here: Here, accountId: string): Promise<Addressee | null> {
  const [row] = await tx.$queryRaw<Addressee[]>`SELECT ${addressees(here, Prisma.sql`a.id = ${accountId}::uuid`)}`
  return row ?? null
}

/** Everybody who gets mail: the address is confirmed, and was not refused since. `ids`: of these accounts; null: of all. */
export async function listAddressees(tx: Transaction, here: Here, ids: readonly string[] | null): Promise<Addressee[]> {
  const among = ids === null ? Prisma.sql`true` : Prisma.sql`a.id = ANY(${[...ids]}::uuid[])`
  const confirmed = Prisma.sql`m.confirmed_at IS NOT NULL AND m.refused_at IS NULL AND ${among}`
  return tx.$queryRaw<Addressee[]>`SELECT ${addressees(here, confirmed)}`
}

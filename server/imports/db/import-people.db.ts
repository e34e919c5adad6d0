import type { Transaction } from '../../db/client.ts'

/** A soldier by whom a file names them. */
export interface KnownSoldier {
  readonly id: string
  readonly rosterNumber: string
  readonly familyName: string
  readonly givenName: string
}

/** The soldiers with these roster numbers, by number. */
export async function soldiersByNumber(
  tx: Transaction,
  numbers: readonly string[],
): Promise<Map<string, KnownSoldier>> {
  const rows = await tx.$queryRaw<KnownSoldier[]>`
    SELECT id::text, roster_number AS "rosterNumber", family_name AS "familyName", given_name AS "givenName"
    FROM soldier WHERE roster_number = ANY(${[...new Set(numbers)]})`
  return new Map(rows.map((row) => [row.rosterNumber, row]))
}

export async function insertSoldiers(tx: Transaction, soldiers: readonly KnownSoldier[]): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO soldier (id, roster_number, family_name, given_name)
    SELECT id, "rosterNumber", "familyName", "givenName"
    FROM jsonb_to_recordset(${JSON.stringify(soldiers)}::jsonb)
      AS x(id uuid, "rosterNumber" text, "familyName" text, "givenName" text)`
}

export async function renameSoldiers(tx: Transaction, soldiers: readonly KnownSoldier[]): Promise<void> {
  await tx.$executeRaw`
    UPDATE soldier s SET family_name = x."familyName", given_name = x."givenName"
    FROM jsonb_to_recordset(${JSON.stringify(soldiers)}::jsonb) AS x(id uuid, "familyName" text, "givenName" text)
    WHERE s.id = x.id`
}

/** A unit as paths name it. */
export interface NamedUnit {
  readonly id: string
  readonly name: string
  readonly kind: string
  readonly parentId: string | null
}

export async function allUnits(tx: Transaction): Promise<NamedUnit[]> {
  return tx.$queryRaw<
    NamedUnit[]
  >`SELECT id::text, name, kind, parent_id::text AS "parentId" FROM unit ORDER BY name, id`
}

/** The zone of each soldier's unit on a UTC day, in the order asked; null where none above says. As `openSheet` has it. */
export async function timeZonesOf(
  tx: Transaction,
  asked: readonly { readonly soldierId: string; readonly day: string }[],
): Promise<(string | null)[]> {
  const rows = await tx.$queryRaw<{ zone: string | null }[]>`
    SELECT (SELECT (SELECT above.time_zone FROM unnest(u.lineage) WITH ORDINALITY AS line(id, height)
        JOIN unit above ON above.id = line.id WHERE above.time_zone IS NOT NULL ORDER BY height LIMIT 1)
      FROM soldier_period p JOIN unit u ON u.id = p.unit_id WHERE p.soldier_id = x.soldier_id
      ORDER BY daterange(p.from_day, p.through_day, '[]') @> x.day DESC, p.from_day > x.day DESC,
        abs(p.from_day - x.day) LIMIT 1) AS zone
    FROM unnest(${asked.map(({ soldierId }) => soldierId)}::uuid[], ${asked.map(({ day }) => day)}::date[])
      WITH ORDINALITY AS x(soldier_id, day, n) ORDER BY n`
  return rows.map(({ zone }) => zone)
}

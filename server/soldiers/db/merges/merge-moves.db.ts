import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'

/** A column that names a soldier, by a foreign key. */
interface Naming {
  readonly table: string
  readonly column: string
  /** Columns of the primary key. */
  readonly keys: readonly string[]
}

/** Rows of a table, by key, that named the soldier given up and name the kept one now. */
export interface Moved {
  readonly table: string
  readonly column: string
  readonly keys: readonly object[]
}

/** A row as it was, whole. */
export interface PutAside {
  readonly table: string
  readonly row: object
}

/** Worked out anew for the kept soldier instead of moved. */
const DERIVED = ['soldier_change', 'soldier_period', 'standing', 'retest_span', 'earned_award', 'person_tally']

/** Every column that names a soldier, found in the catalogue of the database, so that none is forgotten. */
async function readNamings(tx: Transaction): Promise<Naming[]> {
  return tx.$queryRaw<Naming[]>`
    SELECT con.conrelid::regclass::text AS "table", quote_ident(att.attname) AS "column",
      ARRAY(SELECT quote_ident(a.attname) FROM pg_index i
        JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = ANY(i.indkey)
        WHERE i.indrelid = con.conrelid AND i.indisprimary) AS keys
    FROM pg_constraint con JOIN pg_attribute att ON att.attrelid = con.conrelid AND att.attnum = con.conkey[1]
    WHERE con.contype = 'f' AND con.confrelid = 'soldier'::regclass AND con.conrelid::regclass::text <> ALL(${DERIVED})
    ORDER BY 1, 2`
}

/** Lets all that names one soldier name another. Rows whose key the other has already are put aside. */
export async function moveRows(
  tx: Transaction,
  fromId: string,
  toId: string,
): Promise<{ moved: Moved[]; putAside: PutAside[] }> {
  const moved: Moved[] = []
  const putAside: PutAside[] = []
  for (const { table, column, keys } of await readNamings(tx)) {
    const [name, named] = [Prisma.raw(table), Prisma.raw(column)]
    const others = keys.filter((key) => key !== column)
    if (keys.includes(column)) {
      const same = others.map((key) => Prisma.raw(`AND own.${key} = t.${key}`))
      const rows = await tx.$queryRaw<{ row: object }[]>`
        DELETE FROM ${name} t WHERE ${named} = ${fromId}::uuid AND EXISTS (
          SELECT FROM ${name} own WHERE own.${named} = ${toId}::uuid ${same.length ? Prisma.join(same, ' ') : Prisma.empty})
        RETURNING to_jsonb(t) AS row`
      putAside.push(...rows.map(({ row }) => ({ table, row })))
    }
    const key = Prisma.raw(keys.map((one) => `'${one}', t.${one}`).join(', '))
    const rows = await tx.$queryRaw<{ key: object }[]>`
      UPDATE ${name} t SET ${named} = ${toId}::uuid WHERE ${named} = ${fromId}::uuid
      RETURNING jsonb_build_object(${key}) AS key`
    if (rows.length > 0) moved.push({ table, column, keys: rows.map(({ key: one }) => one) })
  }
  return { moved, putAside }
}

/** Lets moved rows, as far as they still name the kept soldier, name the one given up again. */
export async function moveBack(tx: Transaction, moved: readonly Moved[], fromId: string, toId: string): Promise<void> {
  const namings = await readNamings(tx)
  for (const { table, column, keys } of moved) {
    const naming = namings.find((one) => one.table === table && one.column === column)
    if (!naming) continue
    const [name, named] = [Prisma.raw(table), Prisma.raw(column)]
    const same = Prisma.raw(naming.keys.map((key) => `t.${key} = moved.${key}`).join(' AND '))
    await tx.$executeRaw`
      UPDATE ${name} t SET ${named} = ${toId}::uuid
      FROM jsonb_populate_recordset(NULL::${name}, ${JSON.stringify(keys)}::jsonb) moved
      WHERE ${same} AND t.${named} = ${fromId}::uuid`
  }
}

/** Takes rows of one soldier out of a table, whole. */
export async function takeRows(tx: Transaction, table: string, condition: Prisma.Sql): Promise<PutAside[]> {
  const rows = await tx.$queryRaw<{ row: object }[]>`
    DELETE FROM ${Prisma.raw(table)} t WHERE ${condition} RETURNING to_jsonb(t) AS row`
  return rows.map(({ row }) => ({ table, row }))
}

/** Takes out all rows of a table that belong to a soldier, by the column that says so. */
export const takeRowsOf = (
  tx: Transaction,
  table: 'soldier' | 'soldier_change',
  column: 'id' | 'soldier_id',
  soldierId: string,
): Promise<PutAside[]> => takeRows(tx, table, Prisma.sql`t.${Prisma.raw(column)} = ${soldierId}::uuid`)

/** Puts rows back as they were. */
export async function putBack(tx: Transaction, rows: readonly PutAside[]): Promise<void> {
  for (const { table, row } of rows) {
    const name = Prisma.raw(table)
    await tx.$executeRaw`
      INSERT INTO ${name} SELECT * FROM jsonb_populate_record(NULL::${name}, ${JSON.stringify(row)}::jsonb)`
  }
}

import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { sharingCatalogue } from '../../db/locks.db.ts'

/** What a new sheet finds when its transaction begins: locked people, the first body under its id, the zone of its day. */
export interface SheetOpening {
  readonly people: readonly string[]
  readonly testDayExists: boolean
  readonly firstBody: SheetBody | null
  readonly timeZone: string | null
}

/** The people on a sheet. */
interface SheetPeople {
  readonly candidateId: string
  /** All others. */
  readonly otherIds: readonly string[]
}

/** CTEs that lock the people on a sheet, see `openSheet`, once SQL is true; `LOCKED` is the list of those who are there. */
const lockingPeople = ({ candidateId, otherIds }: SheetPeople, first = Prisma.sql`true`): Prisma.Sql => Prisma.sql`
  before AS (
    SELECT id FROM soldier WHERE id = ANY(${[...otherIds]}::uuid[]) AND id < ${candidateId}::uuid AND ${first}
    ORDER BY id FOR SHARE),
  candidate AS (SELECT id FROM soldier WHERE id = ${candidateId}::uuid AND ${first} FOR NO KEY UPDATE),
  after AS (
    SELECT id FROM soldier WHERE id = ANY(${[...otherIds]}::uuid[]) AND id > ${candidateId}::uuid AND ${first}
    ORDER BY id FOR SHARE)`

const LOCKED = Prisma.sql`
  ARRAY(SELECT id::text FROM before UNION ALL SELECT id::text FROM candidate UNION ALL SELECT id::text FROM after)`

/** What a sheet is asked about when it is opened. */
export interface AskedSheet {
  readonly id: string
  readonly candidateId: string
  readonly testDayId: string | null
  /** The UTC day its zone is asked for. */
  readonly utcDay: string
}

/** SQL of the columns of `SheetOpening` but the people. */
export const openingOf = ({ id, candidateId, testDayId, utcDay }: AskedSheet): Prisma.Sql => Prisma.sql`
  ${testDayId}::uuid IS NULL OR EXISTS (SELECT FROM test_day WHERE id = ${testDayId}::uuid) AS "testDayExists",
  (SELECT body FROM sheet_revision WHERE sheet_id = ${id}::uuid AND number = 1) AS "firstBody",
  (SELECT (SELECT above.time_zone FROM unnest(u.lineage) WITH ORDINALITY AS line(id, height)
      JOIN unit above ON above.id = line.id WHERE above.time_zone IS NOT NULL ORDER BY height LIMIT 1)
    FROM soldier_period p JOIN unit u ON u.id = p.unit_id WHERE p.soldier_id = ${candidateId}::uuid
    ORDER BY daterange(p.from_day, p.through_day, '[]') @> ${utcDay}::date DESC,
      p.from_day > ${utcDay}::date DESC, abs(p.from_day - ${utcDay}::date) LIMIT 1) AS "timeZone"`

/**
 * Locks the candidate against other judgements and the other people against changes, in order of their ids so that those
 * who grade each other do not wait for each other for ever, and reads what a new sheet needs.
 */
export async function openSheet(tx: Transaction, sheet: SheetPeople & AskedSheet): Promise<SheetOpening> {
  const [row] = await tx.$queryRaw<[SheetOpening]>`
    WITH ${lockingPeople(sheet)} SELECT ${LOCKED} AS people, ${openingOf(sheet)}`
  return row
}

/**
 * Locks the people on a sheet that is to be stored, as `openSheet` does, once it shares the catalogue: while a sheet is judged
 * no standard or certification changes. Out: those who are there; who came only while this waited for its locks is not seen.
 */
export async function lockForSheet(tx: Transaction, people: SheetPeople): Promise<string[]> {
  const isShared = Prisma.sql`(SELECT count(*) FROM shared) = 1`
  const [row] = await tx.$queryRaw<[{ people: string[] }]>`
    WITH shared AS MATERIALIZED (SELECT ${sharingCatalogue}), ${lockingPeople(people, isShared)}
    SELECT ${LOCKED} AS people`
  return row.people
}

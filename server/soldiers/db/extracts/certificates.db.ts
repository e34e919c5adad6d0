import { extendedDaysOf } from '../../../assessment/db/extended-days.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'

/** An award with the number it can be looked up by: the id of its sheet, or of its entry where it was carried over. */
export interface NumberedAward {
  readonly number: string
  readonly soldierId: string
  readonly certification: string
  readonly title: string
  readonly awardedOn: string
  readonly validThrough: string
}

const AWARDS = Prisma.sql`
  SELECT e.sheet_id::text AS number, e.soldier_id::text AS "soldierId", c.code AS certification, c.title,
    e.awarded_on::text AS "awardedOn", e.valid_through::text AS "validThrough", 0 AS entry
  FROM earned_award e JOIN certification c ON c.id = e.certification_id WHERE e.in_force_from IS NOT NULL
  UNION ALL
  SELECT a.id::text, a.soldier_id::text, c.code, c.title, a.awarded_on::text,
    (a.valid_through + ${extendedDaysOf('a')})::text, a.entry
  FROM carried_award a JOIN certification c ON c.id = a.certification_id`

/** The award that a status rests on; null where it is gone meanwhile. */
export async function readAward(
  tx: Transaction,
  soldierId: string,
  certification: string,
  days: { awardedOn: string; validThrough: string },
): Promise<NumberedAward | null> {
  const rows = await tx.$queryRaw<NumberedAward[]>`
    SELECT number, "soldierId", certification, title, "awardedOn", "validThrough" FROM (${AWARDS}) award
    WHERE "soldierId" = ${soldierId} AND certification = ${certification} AND "awardedOn" = ${days.awardedOn}
      AND "validThrough" = ${days.validThrough}
    ORDER BY entry DESC, number DESC LIMIT 1`
  return rows[0] ?? null
}

/** The awards of a number, by certification: one sheet may make several. */
export async function readAwardsOfNumber(tx: Transaction, number: string): Promise<NumberedAward[]> {
  return tx.$queryRaw<NumberedAward[]>`
    SELECT number, "soldierId", certification, title, "awardedOn", "validThrough" FROM (${AWARDS}) award
    WHERE number = ${number} ORDER BY certification`
}

/** "2nd Platoon, B Company, Battalion": a unit with all above it. */
export async function readUnitName(tx: Transaction, unitId: string): Promise<string> {
  const [row] = await tx.$queryRaw<[{ name: string }]>`
    SELECT string_agg(above.name, ', ' ORDER BY height) AS name
    FROM unit u CROSS JOIN LATERAL unnest(u.lineage) WITH ORDINALITY AS line(id, height)
    JOIN unit above ON above.id = line.id WHERE u.id = ${unitId}::uuid`
  return row.name
}

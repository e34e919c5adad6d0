import { wordsFit } from '../../access/db/words-fit.db.ts'
import type { SoldierWithout, WithoutQuery } from '../../contract/accounts/several.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

interface Place {
  readonly named: number
  readonly familyName: string
  readonly givenName: string
  readonly id: string
}

export interface WithoutRow extends SoldierWithout {
  readonly familyName: string
  readonly givenName: string
}

/** Whether somebody is named as a sponsor or grader, on a day or later. In: the table, whose they are there, and the day. */
const isNamed = (table: 'sponsorship' | 'appointment', whose: 'sponsor_id' | 'soldier_id', day: string): Prisma.Sql =>
  Prisma.sql`EXISTS (SELECT FROM ${Prisma.raw(table)} WHERE ${Prisma.raw(whose)} = s.id
    AND (to_day IS NULL OR to_day >= ${day}::date))`

/**
 * A page of the soldiers without an account who are of the strength on a day or will be: who is named as a sponsor or
 * grader first, then by name.
 */
export async function listSoldiersWithout(
  tx: Transaction,
  { unitId, need, q = '' }: Pick<WithoutQuery, 'unitId' | 'need' | 'q'>,
  day: string,
  page: { readonly limit: number; readonly after: Place | null },
): Promise<WithoutRow[]> {
  const sponsors = isNamed('sponsorship', 'sponsor_id', day)
  const grades = isNamed('appointment', 'soldier_id', day)
  const conditions = [Prisma.sql`NOT EXISTS (SELECT FROM account a WHERE a.soldier_id = s.id)`]
  conditions.push(...wordsFit(q, Prisma.sql`p.grade`))
  if (unitId) conditions.push(Prisma.sql`p.unit_id IN (SELECT id FROM unit WHERE lineage @> ARRAY[${unitId}::uuid])`)
  if (need === 'sponsor') conditions.push(sponsors)
  if (need === 'grader') conditions.push(grades)
  if (page.after) {
    const { named, familyName, givenName, id } = page.after
    conditions.push(Prisma.sql`(1 - n.named, s.family_name, s.given_name, s.id) >
      (1 - ${named}::int, ${familyName}, ${givenName}, ${id}::uuid)`)
  }
  return tx.$queryRaw<WithoutRow[]>`
    SELECT s.id::text, s.roster_number || ' ' || s.family_name || ', ' || s.given_name AS soldier, p.grade,
      p.unit_id::text AS "unitId", n.sponsor AS "isSponsor", n.grader AS "isGrader",
      s.family_name AS "familyName", s.given_name AS "givenName"
    FROM soldier s
    CROSS JOIN LATERAL (SELECT q.unit_id, q.grade FROM soldier_period q WHERE q.soldier_id = s.id
      AND (q.through_day IS NULL OR q.through_day >= ${day}::date) ORDER BY q.from_day LIMIT 1) p
    CROSS JOIN LATERAL (SELECT x.sponsor, x.grader, (x.sponsor OR x.grader)::int AS named
      FROM (SELECT ${sponsors} AS sponsor, ${grades} AS grader) x) n
    WHERE ${Prisma.join(conditions, ' AND ')}
    ORDER BY 1 - n.named, s.family_name, s.given_name, s.id LIMIT ${page.limit}`
}

/** What soldiers among these are called. */
export async function readNamesOfSoldiers(
  tx: Transaction,
  ids: readonly string[],
): Promise<{ id: string; familyName: string; givenName: string }[]> {
  return tx.soldier.findMany({
    where: { id: { in: [...ids] } },
    select: { id: true, familyName: true, givenName: true },
  })
}

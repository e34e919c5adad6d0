import type { Requirements } from '../../contract/standards/requirements.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { StandingRow } from '../../domain/certification/compare-standings.ts'
import { readinessPairs } from '../../readiness/db/readiness.db.ts'

export interface ComparedStanding extends StandingRow {
  readonly name: string
  readonly grade: string
  readonly unitId: string
}

/** How everybody of the strength stands on a day in every certification that fits them or that they hold. */
export async function readStandingsOn(tx: Transaction, scope: Scope, day: string): Promise<ComparedStanding[]> {
  return tx.$queryRaw<ComparedStanding[]>`
    WITH ${readinessPairs(scope, Prisma.sql`${day}::date`, {})}
    SELECT soldier_id::text AS "soldierId", s.roster_number AS "rosterNumber",
      s.family_name || ', ' || s.given_name AS name, grade, unit_id::text AS "unitId", certification, status,
      "validThrough", required
    FROM shown JOIN soldier s ON s.id = shown.soldier_id`
}

/** How many are of the strength on a day. */
export async function countStrength(tx: Transaction, day: string): Promise<number> {
  const rows = await tx.$queryRaw<{ count: number }[]>`
    SELECT count(*)::int AS count FROM soldier_period WHERE daterange(from_day, through_day, '[]') @> ${day}::date`
  return rows[0]!.count
}

type Item = Requirements['items'][number]

/** A page of who must hold what on a day, by unit, grade and certification; where nobody must and nobody does, no row. */
export async function listRequirements(
  tx: Transaction,
  scope: Scope,
  filter: { day: string; unitId?: string | undefined },
  page: { limit: number; after: { unitId: string; grade: string; certification: string } | null },
): Promise<Item[]> {
  const after = page.after
    ? Prisma.sql`AND (x.unit_id, x.grade, x.certification) > (${page.after.unitId}::uuid, ${page.after.grade}, ${page.after.certification})`
    : Prisma.empty
  return tx.$queryRaw<Item[]>`
    WITH ${readinessPairs(scope, Prisma.sql`${filter.day}::date`, { unitId: filter.unitId })},
    sums AS (
      SELECT unit_id, grade, certification, count(*) FILTER (WHERE required)::int AS required,
        count(*) FILTER (WHERE required AND status = 'certified')::int AS certified,
        count(*) FILTER (WHERE NOT required AND status = 'certified')::int AS others
      FROM shown GROUP BY unit_id, grade, certification)
    SELECT x.unit_id::text AS "unitId", x.grade, x.certification, x.required, x.certified, x.others,
      (SELECT count(*)::int FROM people p WHERE p.unit_id = x.unit_id AND p.grade = x.grade) AS people
    FROM sums x WHERE x.required + x.others > 0 ${after}
    ORDER BY x.unit_id, x.grade, x.certification LIMIT ${page.limit}`
}

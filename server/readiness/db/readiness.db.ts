import { type ReadinessFilter, readinessPairs } from '../../assessment/db/standings.db.ts'
import type { Readiness } from '../../contract/standards/certifications.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

const dateOf = (day: string): Prisma.Sql => Prisma.sql`${day}::date`

type Item = Readiness['items'][number]

/** A page of who can stand, by roster number and certification, and the counts of all. */
export async function readReadiness(
  tx: Transaction,
  scope: Scope,
  filter: ReadinessFilter,
  page: { limit: number; after: { rosterNumber: string; certification: string } | null },
): Promise<{ items: Item[]; counts: Readiness['counts'] }> {
  const { rosterNumber = '', certification = '' } = page.after ?? {}
  const [row] = await tx.$queryRaw<[{ items: Item[]; counts: Readiness['counts'] }]>`
    WITH ${readinessPairs(scope, dateOf(filter.day), filter)}
    SELECT
      (SELECT COALESCE(json_agg(page), '[]') FROM (
        SELECT soldier_id AS "soldierId", s.roster_number AS "rosterNumber",
          s.family_name || ', ' || s.given_name AS name, grade, unit_id AS "unitId", required, certification, status,
          "awardedOn", "validThrough", suspended, toward, "retestOpen"
        FROM shown JOIN soldier s ON s.id = shown.soldier_id
        WHERE ${page.after === null} OR (s.roster_number, certification) > (${rosterNumber}, ${certification})
        ORDER BY s.roster_number, certification LIMIT ${page.limit}) page) AS items,
      (SELECT COALESCE(json_agg(sums), '[]') FROM (
        SELECT unit_id AS "unitId", certification, status, required, count(*)::int AS count FROM shown
        GROUP BY unit_id, certification, status, required ORDER BY unit_id, certification, status, required) sums) AS counts`
  return row
}

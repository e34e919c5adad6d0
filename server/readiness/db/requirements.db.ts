import { readinessPairs } from '../../assessment/db/standings.db.ts'
import type { Requirements } from '../../contract/readiness/requirements.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

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
      FROM shown GROUP BY unit_id, grade, certification),
    strength AS (SELECT unit_id, grade, count(*)::int AS people FROM people GROUP BY unit_id, grade)
    SELECT x.unit_id::text AS "unitId", x.grade, x.certification, x.required, x.certified, x.others, strength.people
    FROM sums x JOIN strength USING (unit_id, grade) WHERE x.required + x.others > 0 ${after}
    ORDER BY x.unit_id, x.grade, x.certification LIMIT ${page.limit}`
}

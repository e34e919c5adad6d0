import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { Suspension } from '../../contract/readiness/suspensions.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

interface Filter {
  readonly day: string
  readonly unitId?: string | undefined
  readonly soldierId?: string | undefined
}

/** With 1 where it is lifted by the day asked for, else 0. */
type ListedSuspension = Suspension & { readonly over: number }

/** A page of suspensions as of a day: those not lifted by then first, then by when they began, the latest first. */
export async function listSuspensions(
  tx: Transaction,
  scope: Scope,
  { day, unitId, soldierId }: Filter,
  page: { limit: number; after: { over: number; from: string; id: string } | null },
): Promise<ListedSuspension[]> {
  const { over, from, id } = page.after ?? { over: 0, from: '0001-01-01', id: null }
  return tx.$queryRaw<ListedSuspension[]>`
    SELECT * FROM (
      SELECT x.id::text, x.soldier_id::text AS "soldierId", s.roster_number AS "rosterNumber",
        s.family_name || ', ' || s.given_name AS name, p.grade, c.code AS certification, x.from_day::text AS "from", x.reason,
        x.lift_day::text AS lift, x.lift_reason AS "liftReason",
        x.from_day <= ${day}::date AND (x.lift_day IS NULL OR x.lift_day > ${day}::date) AS "inForce",
        CASE WHEN x.lift_day <= ${day}::date THEN 1 ELSE 0 END AS over
      FROM suspension x JOIN soldier s ON s.id = x.soldier_id JOIN certification c ON c.id = x.certification_id
      LEFT JOIN soldier_period p ON p.soldier_id = x.soldier_id AND daterange(p.from_day, p.through_day, '[]') @> ${day}::date
      WHERE ${soldierInScope(scope, Prisma.sql`x.soldier_id`, Prisma.sql`p.unit_id`)}
        ${unitId ? Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})` : Prisma.empty}
        ${soldierId ? Prisma.sql`AND x.soldier_id = ${soldierId}::uuid` : Prisma.empty}) listed
    WHERE ${page.after === null} OR over > ${over} OR over = ${over} AND ("from" < ${from} OR "from" = ${from} AND id > ${id})
    ORDER BY over, "from" DESC, id LIMIT ${page.limit}`
}

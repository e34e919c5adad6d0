import { subtree } from '../../access/db/scope.db.ts'
import type { VoidFindings, VoidQuery } from '../../contract/findings/voids.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

/**
 * Void tests by grader, by name; `graderIds` null: of all graders. The unit is the candidate's of that day. `today`: as of
 * which grades are shown.
 */
export async function readVoidFindings(
  tx: Transaction,
  { from, to, unitId }: VoidQuery,
  graderIds: readonly string[] | null,
  today: string,
): Promise<VoidFindings['items']> {
  const conditions = [Prisma.sql`s.ending = 'void' AND s.purpose = 'test' AND s.state <> 'rejected'`]
  if (from) conditions.push(Prisma.sql`s.day >= ${from}::date`)
  if (to) conditions.push(Prisma.sql`s.day <= ${to}::date`)
  if (graderIds) conditions.push(Prisma.sql`s.grader_id = ANY(${[...graderIds]}::uuid[])`)
  if (unitId) {
    conditions.push(Prisma.sql`EXISTS (SELECT FROM soldier_period p WHERE p.soldier_id = s.candidate_id
      AND daterange(p.from_day, p.through_day, '[]') @> s.day AND p.unit_id = ANY(${subtree(unitId)}))`)
  }
  return tx.$queryRaw<VoidFindings['items']>`
    SELECT g.id::text AS "graderId", g.family_name || ', ' || g.given_name AS name,
      (SELECT grade FROM soldier_period p WHERE p.soldier_id = g.id
        ORDER BY p.from_day > ${today}::date, abs(p.from_day - ${today}::date) LIMIT 1) AS grade,
      count(*)::int AS voids, (count(*) FILTER (WHERE s.void_after_failure))::int AS "afterFailure"
    FROM sheet s JOIN soldier g ON g.id = s.grader_id WHERE ${Prisma.join(conditions, ' AND ')}
    GROUP BY g.id ORDER BY g.family_name, g.given_name, g.id`
}

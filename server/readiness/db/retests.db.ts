import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { Retest } from '../../contract/standards/certifications.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { joinMovedDue } from './due-moves.db.ts'

export interface RetestFilter {
  readonly day: string
  readonly unitId?: string | undefined
  readonly soldierId?: string | undefined
}

/**
 * A page of the retests open on a day, of soldiers in the strength that day whom the certification fits, by due date.
 * In: the day, the unit with all below it (undefined: everyone in scope), one soldier (undefined: all).
 */
export async function listRetests(
  tx: Transaction,
  scope: Scope,
  { day, unitId, soldierId }: RetestFilter,
  page: {
    limit: number
    after: readonly [due: string, rosterNumber: string, certification: string, standard: string] | null
  },
): Promise<Retest[]> {
  const [due, rosterNumber, certification, standard] = page.after ?? ['0001-01-01', '', '', '']
  const rows = await tx.$queryRaw<(Omit<Retest, 'dueMoved'> & { dueMoved: Retest['dueMoved'] | null })[]>`
    WITH people AS MATERIALIZED (
      SELECT p.soldier_id, p.unit_id, p.grade, p.arms FROM soldier_period p
      WHERE daterange(p.from_day, p.through_day, '[]') @> ${day}::date
        AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`p.unit_id`)}
        ${unitId === undefined ? Prisma.empty : Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})`}
        ${soldierId === undefined ? Prisma.empty : Prisma.sql`AND p.soldier_id = ${soldierId}::uuid`}),
    required AS MATERIALIZED (
      SELECT c.id, c.code, c.arms, s.code AS standard FROM certification c
      JOIN certification_standard cs ON cs.certification_id = c.id JOIN standard s ON s.id = cs.standard_id)
    SELECT p.soldier_id::text AS "soldierId", q.code AS certification, q.standard, r.attempt, r.on_day::text AS "on",
      r.earliest::text, effective.due::text, effective.due < ${day}::date AS "pastDue", r.no_gos_in_a_row AS "noGosInARow",
      r.needs_review AS "needsReview", s.roster_number AS "rosterNumber",
      s.family_name || ', ' || s.given_name AS name, p.grade, p.unit_id::text AS "unitId",
      CASE WHEN moved.due IS NOT NULL THEN json_build_object('ruleDue', r.due, 'reason', moved.reason) END AS "dueMoved"
    FROM people p JOIN required q ON cardinality(q.arms) = 0 OR q.arms && p.arms
    CROSS JOIN LATERAL (SELECT * FROM retest_span x WHERE x.soldier_id = p.soldier_id AND x.certification_id = q.id
      AND x.standard = q.standard AND x.from_day <= ${day}::date ORDER BY x.from_day DESC LIMIT 1) r
    ${joinMovedDue('r')} CROSS JOIN LATERAL (SELECT COALESCE(moved.due, r.due) AS due) effective
    JOIN soldier s ON s.id = p.soldier_id
    WHERE (r.through_day IS NULL OR r.through_day >= ${day}::date)
      AND (${page.after === null} OR (effective.due, s.roster_number, q.code, q.standard)
        > (${due}::date, ${rosterNumber}, ${certification}, ${standard}))
    ORDER BY effective.due, s.roster_number, q.code, q.standard LIMIT ${page.limit}`
  return rows.map(({ dueMoved, ...retest }) => (dueMoved ? { ...retest, dueMoved } : retest))
}

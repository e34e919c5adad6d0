import { servesIn, servesInScope } from '../../access/db/scope.db.ts'
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
 * A page of the retests open on a day, of soldiers in the strength that day whom the certification fits, by due date. The open
 * ones are put in order first, so that only as many soldiers are looked at as a page takes.
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
    WITH required AS MATERIALIZED (
      SELECT c.id, c.code, c.arms, s.code AS standard FROM certification c
      JOIN certification_standard cs ON cs.certification_id = c.id JOIN standard s ON s.id = cs.standard_id)
    SELECT r.soldier_id::text AS "soldierId", r.certification, r.standard, r.attempt, r.on_day::text AS "on",
      r.earliest::text, r.effective::text AS due, r.effective < ${day}::date AS "pastDue",
      r.no_gos_in_a_row AS "noGosInARow", r.needs_review AS "needsReview", r.roster_number AS "rosterNumber",
      r.family_name || ', ' || r.given_name AS name, p.grade, p.unit_id::text AS "unitId",
      CASE WHEN r.moved_due IS NOT NULL THEN json_build_object('ruleDue', r.due, 'reason', r.reason) END AS "dueMoved"
    FROM (
      SELECT r.*, q.code AS certification, q.arms, moved.due AS moved_due, moved.reason,
        COALESCE(moved.due, r.due) AS effective, s.roster_number, s.family_name, s.given_name
      FROM retest_span r JOIN required q ON q.id = r.certification_id AND q.standard = r.standard
      ${joinMovedDue('r')} JOIN soldier s ON s.id = r.soldier_id
      WHERE r.from_day <= ${day}::date AND COALESCE(r.through_day, 'infinity'::date) >= ${day}::date
        AND ${servesInScope(scope, Prisma.sql`r.soldier_id`, day)}
        ${unitId === undefined ? Prisma.empty : Prisma.sql`AND ${servesIn(Prisma.sql`r.soldier_id`, unitId, day)}`}
        ${soldierId === undefined ? Prisma.empty : Prisma.sql`AND r.soldier_id = ${soldierId}::uuid`}
      ORDER BY effective, s.roster_number, q.code, r.standard) r
    JOIN soldier_period p ON p.soldier_id = r.soldier_id AND p.from_day <= ${day}::date
      AND (p.through_day IS NULL OR p.through_day >= ${day}::date) AND (cardinality(r.arms) = 0 OR r.arms && p.arms)
    WHERE (${page.after === null} OR (r.effective, r.roster_number, r.certification, r.standard)
        > (${due}::date, ${rosterNumber}, ${certification}, ${standard}))
    ORDER BY r.effective, r.roster_number, r.certification, r.standard LIMIT ${page.limit}`
  return rows.map(({ dueMoved, ...retest }) => (dueMoved ? { ...retest, dueMoved } : retest))
}

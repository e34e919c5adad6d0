import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { BacklogPoint, KeptGo } from '../../contract/readiness/retests.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { joinMovedDue } from './due-moves.db.ts'

/** How many retests were open, past due and in need of a review at the end of each of these days, of a unit's people then. */
export async function readBacklog(
  tx: Transaction,
  scope: Scope,
  unitId: string | undefined,
  days: readonly string[],
): Promise<BacklogPoint[]> {
  return tx.$queryRaw<BacklogPoint[]>`
    WITH days AS (SELECT unnest(${[...days]}::date[]) AS day)
    SELECT days.day::text, count(r.soldier_id)::int AS open,
      (count(*) FILTER (WHERE COALESCE(moved.due, r.due) < days.day))::int AS "pastDue",
      (count(*) FILTER (WHERE r.needs_review))::int AS "needsReview"
    FROM days LEFT JOIN (retest_span r JOIN certification c ON c.id = r.certification_id
      JOIN soldier_period p ON p.soldier_id = r.soldier_id AND (cardinality(c.arms) = 0 OR c.arms && p.arms)
        AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`p.unit_id`)}
        ${unitId === undefined ? Prisma.empty : Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})`}
      ${joinMovedDue('r')})
      ON daterange(r.from_day, r.through_day, '[]') @> days.day AND daterange(p.from_day, p.through_day, '[]') @> days.day
    GROUP BY days.day ORDER BY days.day`
}

/** A page of the GOs kept on a day that stop counting by a last day, the first to do so first. */
export async function listKeptGos(
  tx: Transaction,
  scope: Scope,
  { day, through, unitId }: { day: string; through: string; unitId?: string | undefined },
  page: {
    limit: number
    after: readonly [until: string, rosterNumber: string, certification: string, standard: string] | null
  },
): Promise<KeptGo[]> {
  const [until, rosterNumber, certification, standard] = page.after ?? ['0001-01-01', '', '', '']
  return tx.$queryRaw<KeptGo[]>`
    SELECT s.id::text AS "soldierId", s.roster_number AS "rosterNumber", s.family_name || ', ' || s.given_name AS name,
      p.grade, p.unit_id::text AS "unitId", c.code AS certification, go.standard, go."on"::text, go."countsUntil"::text
    FROM soldier_period p JOIN soldier s ON s.id = p.soldier_id
    JOIN certification c ON cardinality(c.arms) = 0 OR c.arms && p.arms
    CROSS JOIN LATERAL (SELECT * FROM standing x WHERE x.soldier_id = p.soldier_id AND x.certification_id = c.id
      AND x.from_day <= ${day}::date ORDER BY x.from_day DESC LIMIT 1) st
    CROSS JOIN LATERAL jsonb_to_recordset(st.toward) AS go(standard text, "on" date, "countsUntil" date)
    WHERE daterange(p.from_day, p.through_day, '[]') @> ${day}::date
      AND (st.through_day IS NULL OR st.through_day >= ${day}::date)
      AND go."countsUntil" BETWEEN ${day}::date AND ${through}::date
      AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`p.unit_id`)}
      ${unitId === undefined ? Prisma.empty : Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})`}
      AND (${page.after === null} OR (go."countsUntil", s.roster_number, c.code, go.standard)
        > (${until}::date, ${rosterNumber}, ${certification}, ${standard}))
    ORDER BY go."countsUntil", s.roster_number, c.code, go.standard LIMIT ${page.limit}`
}

import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { BacklogPoint, KeptGo } from '../../contract/readiness/retests.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { firstFrom, lastThrough } from './places-of-days.db.ts'
import { readinessChanges } from './readiness-tallies.db.ts'

/**
 * How many retests were open, past due and in need of a review at the end of each of these ascending days, of a unit's people
 * then. Every span is looked at once, however many of the days it holds.
 */
export async function readBacklog(
  tx: Transaction,
  scope: Scope,
  unitId: string | undefined,
  days: readonly string[],
): Promise<BacklogPoint[]> {
  const [first, last] = [Prisma.sql`${days[0]}::date`, Prisma.sql`${days.at(-1)}::date`]
  return tx.$queryRaw<BacklogPoint[]>`
    WITH days AS (SELECT ${[...days]}::date[] AS list),
    moved AS MATERIALIZED (
      SELECT DISTINCT ON (soldier_id, certification_id, standard, on_day) soldier_id, certification_id, standard, on_day, due
      FROM due_move ORDER BY soldier_id, certification_id, standard, on_day, entry DESC),
    spans AS (
      SELECT ${firstFrom(Prisma.sql`GREATEST(r.from_day, p.from_day)`)} AS first,
        ${lastThrough(Prisma.sql`LEAST(r.through_day, p.through_day)`)} AS last,
        ${firstFrom(Prisma.sql`COALESCE(moved.due, r.due) + 1`)} AS late, r.needs_review, count(*) AS n
      FROM retest_span r JOIN certification c ON c.id = r.certification_id
      JOIN soldier_period p ON p.soldier_id = r.soldier_id AND (cardinality(c.arms) = 0 OR c.arms && p.arms)
        AND p.from_day <= COALESCE(r.through_day, 'infinity') AND COALESCE(p.through_day, 'infinity') >= r.from_day
      LEFT JOIN moved ON moved.soldier_id = r.soldier_id AND moved.certification_id = r.certification_id
        AND moved.standard = r.standard AND moved.on_day = r.on_day
      CROSS JOIN days
      WHERE r.from_day <= ${last} AND (r.through_day IS NULL OR r.through_day >= ${first})
        AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`p.unit_id`)}
        ${unitId === undefined ? Prisma.empty : Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})`}
      GROUP BY 1, 2, 3, 4)
    SELECT day::text, COALESCE(sum(n), 0)::int AS open, COALESCE(sum(n) FILTER (WHERE place >= late), 0)::int AS "pastDue",
      COALESCE(sum(n) FILTER (WHERE needs_review), 0)::int AS "needsReview"
    FROM days CROSS JOIN LATERAL unnest(days.list) WITH ORDINALITY AS each(day, place)
    LEFT JOIN spans ON place BETWEEN spans.first AND spans.last GROUP BY day ORDER BY day`
}

/** The same to whoever sees everybody, from tallies, so that it does not grow with the roster. The days are `monthEnds`. */
export async function readBacklogOfAll(
  tx: Transaction,
  unitId: string | undefined,
  days: readonly string[],
): Promise<BacklogPoint[]> {
  const units = Prisma.sql`SELECT id FROM unit
    WHERE ${unitId === undefined ? Prisma.sql`parent_id IS NULL` : Prisma.sql`id = ${unitId}::uuid`}`
  return tx.$queryRaw<BacklogPoint[]>`
    WITH days AS (SELECT ${[...days]}::date[] AS list),
    ${readinessChanges(units, days.at(-1)!, ['open', 'past_due', 'needs_review'])}
    SELECT day::text, COALESCE(sum(open), 0)::int AS open, COALESCE(sum(past_due), 0)::int AS "pastDue",
      COALESCE(sum(needs_review), 0)::int AS "needsReview"
    FROM days CROSS JOIN LATERAL unnest(days.list) WITH ORDINALITY AS each(day, at)
    LEFT JOIN changes ON place <= at GROUP BY day ORDER BY day`
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

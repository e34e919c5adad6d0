import { subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { type FindingsFilter, isAttemptOf } from './findings-filter.db.ts'

interface Graded {
  readonly versionId: string
  readonly marks: string
  readonly outcome: 'GO' | 'NO-GO'
}

/** Attempts that all were graded exactly so: by the first grader, then by the others in the order they finished. */
export interface GradedAlike extends Graded {
  readonly others: readonly Graded[]
  readonly attempts: number
}

export interface SecondsLeftOut {
  readonly firstNotCounted: number
  readonly notCounted: number
  readonly void: number
  readonly recorded: number
  readonly notTheSameTest: number
}

/** Attempts of a filter with counted sheets of other graders beside the first one's, and the seconds left out, by why. */
export async function readGradedAlike(
  tx: Transaction,
  filter: FindingsFilter,
): Promise<{ patterns: GradedAlike[]; leftOut: SecondsLeftOut }> {
  const [row] = await tx.$queryRaw<[{ patterns: GradedAlike[] | null; leftOut: SecondsLeftOut }]>`
    WITH seconds AS MATERIALIZED (
      SELECT f.id AS first_id, f.standard_version_id AS first_version, f.marks AS first_marks, f.outcome AS first_outcome,
        s.standard_version_id, s.marks, s.outcome, s.finished_at, s.id,
        CASE WHEN s.state <> 'counted' THEN 'not counted' WHEN s.outcome = 'VOID' THEN 'void'
          WHEN f.tallied_kind IS NULL THEN 'first not counted'
          WHEN s.candidate_id <> f.candidate_id OR s.standard_id <> f.standard_id OR s.grader_id = f.grader_id
            THEN 'not the same test'
          WHEN s.marks = '' OR f.marks = '' THEN 'recorded' END AS why_not
      FROM sheet s LEFT JOIN LATERAL (SELECT * FROM sheet one WHERE one.id = s.second_of LIMIT 1) f ON true
      WHERE s.second_of IS NOT NULL AND s.purpose = 'test'
        AND CASE WHEN f.tallied_kind IS NULL THEN ${isSecondOf(filter)} ELSE ${isAttemptOf(filter, Prisma.sql`f`)} END),
    attempts AS (
      SELECT first_version::text AS "versionId", first_marks AS marks, first_outcome AS outcome,
        jsonb_agg(jsonb_build_object('versionId', standard_version_id, 'marks', marks, 'outcome', outcome)
          ORDER BY finished_at, id) AS others
      FROM seconds WHERE why_not IS NULL GROUP BY first_id, 1, 2, 3)
    SELECT
      (SELECT json_agg(alike) FROM (
        SELECT "versionId", marks, outcome, others, count(*)::int AS attempts FROM attempts
        GROUP BY 1, 2, 3, 4 ORDER BY 1, 2, 3, 4) alike) AS patterns,
      (SELECT json_build_object('firstNotCounted', count(*) FILTER (WHERE why_not = 'first not counted'),
        'notCounted', count(*) FILTER (WHERE why_not = 'not counted'), 'void', count(*) FILTER (WHERE why_not = 'void'),
        'recorded', count(*) FILTER (WHERE why_not = 'recorded'),
        'notTheSameTest', count(*) FILTER (WHERE why_not = 'not the same test')) FROM seconds) AS "leftOut"`
  return { patterns: row.patterns ?? [], leftOut: row.leftOut }
}

/** Where the first grader's sheet is no attempt, the second's own facts say whether the filter is about it. */
function isSecondOf({ versionIds, unitId, arm, from, to }: FindingsFilter): Prisma.Sql {
  const conditions = [Prisma.sql`s.standard_version_id = ANY(${[...versionIds]}::uuid[])`]
  if (from !== null) conditions.push(Prisma.sql`s.day >= ${from}::date`)
  if (to !== null) conditions.push(Prisma.sql`s.day <= ${to}::date`)
  if (arm !== undefined) conditions.push(Prisma.sql`s.arm = ${arm}`)
  if (unitId !== undefined) {
    conditions.push(Prisma.sql`EXISTS (SELECT FROM soldier_period p WHERE p.soldier_id = s.candidate_id
      AND daterange(p.from_day, p.through_day, '[]') @> s.day AND p.unit_id = ANY(${subtree(unitId)}))`)
  }
  return Prisma.sql`(${Prisma.join(conditions, ' AND ')})`
}

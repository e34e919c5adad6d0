import type { Transaction } from '../../db/client.ts'
import type { GainKind } from '../../domain/ability/attempt-kind.ts'
import { type FindingsFilter, fromTallies } from './findings-filter.db.ts'

/** Attempts of one kind: of a standard, with an arm. */
export interface StratumTally {
  /** Null: of everybody, those without a sponsor included. */
  readonly soldierId: string | null
  readonly standard: string
  /** Empty: none. */
  readonly arm: string
  readonly kind: GainKind
  readonly attempts: number
  readonly passes: number
}

/** Attempts and passes by kind, of the unit and of everyone who sponsored (or graded) some, in one look at the tallies. */
export async function readStrata(
  tx: Transaction,
  filter: FindingsFilter,
  role: 'sponsor' | 'grader',
): Promise<StratumTally[]> {
  return tx.$queryRaw<StratumTally[]>`
    WITH chosen AS MATERIALIZED (
      SELECT t.id, s.code AS standard, t.arm, t.kind, t.attempts, t.passes FROM (
        SELECT t.id, t.standard_version_id, t.arm, t.kind, t.attempts, t.passes ${fromTallies(filter)}) t
      JOIN standard_version v ON v.id = t.standard_version_id JOIN standard s ON s.id = v.standard_id)
    SELECT NULL AS "soldierId", standard, arm, kind, sum(attempts)::int AS attempts, sum(passes)::int AS passes
    FROM chosen GROUP BY 2, 3, 4
    UNION ALL
    SELECT p.soldier_id::text, c.standard, c.arm, c.kind, sum(p.attempts)::int, sum(p.passes)::int
    FROM chosen c JOIN person_tally p ON p.tally_id = c.id AND p.role = ${role} AND p.attempts > 0 GROUP BY 1, 2, 3, 4
    ORDER BY 1 NULLS FIRST, 2, 3, 4`
}

/** Name and grade as of a day, by name and then id. */
export async function readNames(
  tx: Transaction,
  ids: readonly string[],
  day: string,
): Promise<{ readonly id: string; readonly name: string; readonly grade: string }[]> {
  return tx.$queryRaw`
    SELECT s.id::text, s.family_name || ', ' || s.given_name AS name,
      (SELECT grade FROM soldier_period p WHERE p.soldier_id = s.id
        ORDER BY p.from_day > ${day}::date, abs(p.from_day - ${day}::date) LIMIT 1) AS grade
    FROM soldier s WHERE s.id = ANY(${[...ids]}::uuid[]) ORDER BY 2, s.id`
}

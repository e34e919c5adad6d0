import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { type FindingsFilter, fromTallies } from './findings-filter.db.ts'

/** Attempts and passes of a sponsor or grader, of all their kinds and of first attempts. */
export interface CreditTally {
  /** Null: of everybody, those without a sponsor included. */
  readonly soldierId: string | null
  readonly attempts: number
  readonly passes: number
  readonly firstAttempts: number
  readonly firstPasses: number
}

/** Attempts and passes of the unit and of everyone who sponsored (or graded) some, in one look at the tallies. */
export async function readCreditTallies(
  tx: Transaction,
  filter: FindingsFilter,
  role: 'sponsor' | 'grader',
): Promise<CreditTally[]> {
  const sums = (of: Prisma.Sql) => Prisma.sql`
    COALESCE(sum(${of}.attempts), 0)::int AS attempts, COALESCE(sum(${of}.passes), 0)::int AS passes,
    COALESCE(sum(${of}.attempts) FILTER (WHERE c.kind = 'first'), 0)::int AS "firstAttempts",
    COALESCE(sum(${of}.passes) FILTER (WHERE c.kind = 'first'), 0)::int AS "firstPasses"`
  return tx.$queryRaw<CreditTally[]>`
    WITH chosen AS MATERIALIZED (SELECT t.id, t.kind, t.attempts, t.passes ${fromTallies(filter)})
    SELECT NULL AS "soldierId", ${sums(Prisma.sql`c`)} FROM chosen c
    UNION ALL
    SELECT p.soldier_id::text, ${sums(Prisma.sql`p`)}
    FROM chosen c JOIN person_tally p ON p.tally_id = c.id AND p.role = ${role} AND p.attempts > 0 GROUP BY p.soldier_id
    ORDER BY 1 NULLS FIRST`
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

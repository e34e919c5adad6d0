import type { Transaction } from '../../db/client.ts'
import { type FindingsFilter, fromTallies } from './findings-filter.db.ts'

/** What was counted of one version in one month. */
export interface MonthTallies {
  readonly versionId: string
  /** YYYY-MM */
  readonly month: string
  readonly attempts: number
  readonly passes: number
  readonly measures: number[]
}

/** Counters of measures by version and month, in order of months. In: a filter whose periods are months and days. */
export async function readMonthTallies(tx: Transaction, filter: FindingsFilter): Promise<MonthTallies[]> {
  return tx.$queryRaw<MonthTallies[]>`
    WITH chosen AS MATERIALIZED (
      SELECT t.standard_version_id::text AS version_id, to_char(t.start, 'YYYY-MM') AS month, t.attempts, t.passes,
        t.measures ${fromTallies(filter)}),
    outcomes AS (
      SELECT version_id, month, sum(attempts)::int AS attempts, sum(passes)::int AS passes FROM chosen GROUP BY 1, 2),
    counters AS (
      SELECT version_id, month, array_agg(total ORDER BY place) AS measures FROM (
        SELECT version_id, month, place, sum(n)::int AS total
        FROM chosen CROSS JOIN LATERAL unnest(measures) WITH ORDINALITY AS at(n, place) GROUP BY 1, 2, 3) added
      GROUP BY 1, 2)
    SELECT version_id AS "versionId", month, attempts, passes, measures
    FROM outcomes JOIN counters USING (version_id, month) ORDER BY month, version_id`
}

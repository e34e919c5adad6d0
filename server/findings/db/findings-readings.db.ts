import type { Transaction } from '../../db/client.ts'
import { type FindingsFilter, fromTallies } from './findings-filter.db.ts'

/** Counters of readings by version, at the places of its layout. */
export async function readReadingTallies(
  tx: Transaction,
  filter: FindingsFilter,
): Promise<{ readonly versionId: string; readonly readings: number[] }[]> {
  return tx.$queryRaw`
    SELECT version_id AS "versionId", array_agg(total ORDER BY place) AS readings FROM (
      SELECT version_id, place, sum(n)::int AS total
      FROM (SELECT t.standard_version_id::text AS version_id, t.readings ${fromTallies(filter)}) chosen
      CROSS JOIN LATERAL unnest(readings) WITH ORDINALITY AS at(n, place) GROUP BY 1, 2) added
    GROUP BY 1 ORDER BY 1`
}

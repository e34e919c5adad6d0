import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { type FindingsFilter, fromTallies, talliedUnits } from './findings-filter.db.ts'

/** Summed counters of one version, at the places of its layout. */
export interface MeasureTallies {
  readonly versionId: string
  /** Of the unit asked about, or of everything it is held against, itself included. */
  readonly part: 'own' | 'whole'
  /** Tests with marks. */
  readonly marked: number
  readonly measures: number[]
  readonly faults: number[]
}

const summed = (counters: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (SELECT part, version_id, array_agg(total ORDER BY place) AS totals FROM (
    SELECT part, version_id, place, sum(n)::int AS total
    FROM chosen CROSS JOIN LATERAL unnest(${counters}) WITH ORDINALITY AS at(n, place) GROUP BY 1, 2, 3) added
  GROUP BY 1, 2)`

/** Counters of measures and faults by version. `wholeUnitId`: what the unit is held against; null: nothing. */
export async function readMeasureTallies(
  tx: Transaction,
  filter: FindingsFilter,
  whole: { readonly unitId: string | undefined } | null,
): Promise<MeasureTallies[]> {
  const columns = Prisma.sql`t.standard_version_id::text AS version_id, t.attempts - t.recorded AS marked, t.measures, t.faults`
  const wholePart =
    whole === null
      ? Prisma.empty
      : Prisma.sql`UNION ALL SELECT 'whole', ${columns} ${fromTallies(filter, talliedUnits(whole.unitId))}`
  return tx.$queryRaw<MeasureTallies[]>`
    WITH chosen AS MATERIALIZED (SELECT 'own' AS part, ${columns} ${fromTallies(filter)} ${wholePart})
    SELECT part, version_id AS "versionId", marked, m.totals AS measures, COALESCE(f.totals, '{}') AS faults
    FROM (SELECT part, version_id, sum(marked)::int AS marked FROM chosen GROUP BY 1, 2) tests
      JOIN ${summed(Prisma.sql`measures`)} m USING (part, version_id) LEFT JOIN ${summed(Prisma.sql`faults`)} f USING (part, version_id)
    ORDER BY version_id, part`
}

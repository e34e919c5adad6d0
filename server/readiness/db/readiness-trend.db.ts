import { type ReadinessFilter, readinessPairs } from '../../assessment/db/standings.db.ts'
import type { Lapse, ReadinessPoint } from '../../contract/readiness/readiness.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** The unit directly below the one asked about, or below the top of the tree, to which a soldier's unit `u` belongs; null: none. */
const unitBelow = (unitId: string | undefined): Prisma.Sql => {
  const top = unitId ? Prisma.sql`${unitId}::uuid` : Prisma.sql`u.lineage[cardinality(u.lineage)]`
  return Prisma.sql`u.lineage[array_position(u.lineage, ${top}) - 1]`
}

/**
 * How many were required and certified on each of some days, by unit directly below and certification. Each day is the
 * question of `readReadiness`, so that a course and the look at one of its days agree; one step down the index a soldier,
 * certification and day, however long the record.
 */
export async function readTrend(
  tx: Transaction,
  scope: Scope,
  days: readonly string[],
  filter: Omit<ReadinessFilter, 'day'>,
): Promise<ReadinessPoint[]> {
  return tx.$queryRaw<ReadinessPoint[]>`
    SELECT d.day::text AS "asOf", x.below AS "unitId", x.certification, x.required, x.certified
    FROM unnest(${[...days]}::date[]) d(day) CROSS JOIN LATERAL (
      WITH ${readinessPairs(scope, Prisma.sql`d.day`, filter)}
      SELECT ${unitBelow(filter.unitId)}::text AS below, certification, count(*)::int AS required,
        count(*) FILTER (WHERE status = 'certified')::int AS certified
      FROM shown JOIN unit u ON u.id = shown.unit_id WHERE shown.required
      GROUP BY 1, 2) x
    ORDER BY 1, 3, 2 NULLS FIRST`
}

/** SQL: who is certified on a day and by another is no longer, found by that end, so that nobody else is looked at. */
const endingBy = ({ day, through }: { day: string; through: string }): Prisma.Sql => Prisma.sql`
  SELECT soldier_id FROM standing
  WHERE status = 'certified' AND valid_through BETWEEN ${day}::date AND ${through}::date
    AND from_day <= ${day}::date AND (through_day IS NULL OR through_day >= ${day}::date)`

/** A page of those certified on a day whose certification ends by another, by that end. */
export async function listLapses(
  tx: Transaction,
  scope: Scope,
  filter: ReadinessFilter & { through: string },
  page: { limit: number; after: { validThrough: string; rosterNumber: string; certification: string } | null },
): Promise<Lapse[]> {
  const { validThrough = '0001-01-01', rosterNumber = '', certification = '' } = page.after ?? {}
  return tx.$queryRaw<Lapse[]>`
    WITH ${readinessPairs(scope, Prisma.sql`${filter.day}::date`, filter, endingBy(filter))}
    SELECT soldier_id::text AS "soldierId", s.roster_number AS "rosterNumber", s.family_name || ', ' || s.given_name AS name,
      grade, unit_id::text AS "unitId", certification, required, "validThrough"
    FROM shown JOIN soldier s ON s.id = shown.soldier_id
    WHERE status = 'certified' AND "validThrough" <= ${filter.through} AND (${page.after === null}
      OR ("validThrough", s.roster_number, certification) > (${validThrough}, ${rosterNumber}, ${certification}))
    ORDER BY "validThrough", s.roster_number, certification LIMIT ${page.limit}`
}

import { unitOrder } from '../../access/db/unit-order.db.ts'
import { type ReadinessFilter, readinessPairs } from '../../assessment/db/standings.db.ts'
import type { UnitCounts } from '../../contract/readiness/unit-counts.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** The units after one (null: from the first), so many of them. */
export interface UnitsPage {
  readonly after: string | null
  readonly limit: number
}

/**
 * CTEs over `shown` of `readinessPairs`: `sums`, how many of a unit stand how, and `listed`, some units that have anybody, in
 * the order of the tree, numbered by `place`. Where the tree forks below the unit asked about (undefined: below its tops) the
 * branches are put in order first, so that of a long tree only the units of a few branches are.
 */
export const unitsInOrder = (unitId: string | undefined, { after, limit }: UnitsPage): Prisma.Sql => {
  const top =
    unitId === undefined ? Prisma.sql`cardinality(lineage)` : Prisma.sql`array_position(lineage, ${unitId}::uuid)`
  const branch = Prisma.sql`lineage[GREATEST(${top} - 1, 1)]`
  const ofUnit = Prisma.sql`SELECT ${unitOrder('u')} FROM unit u`
  return Prisma.sql`
    sums AS MATERIALIZED (
      SELECT unit_id, certification, status, required, count(*)::int AS count FROM shown GROUP BY 1, 2, 3, 4),
    own AS MATERIALIZED (
      SELECT id, ${branch} AS branch FROM unit WHERE id IN (SELECT unit_id FROM sums)),
    begun AS MATERIALIZED (
      SELECT id, branch, (${ofUnit} WHERE u.id = branch) AS branch_key, (${ofUnit} WHERE u.id = cursor.id) AS key
      FROM (SELECT id, ${branch} AS branch FROM unit WHERE id = ${after}::uuid) cursor),
    branches AS (
      SELECT branch, key, sum(CASE WHEN branch = (SELECT branch FROM begun) THEN 0 ELSE units END) OVER in_order
        - CASE WHEN branch = (SELECT branch FROM begun) THEN 0 ELSE units END AS before
      FROM (SELECT branch, units, (${ofUnit} WHERE u.id = branch) AS key
        FROM (SELECT branch, count(*) AS units FROM own GROUP BY 1) each) keyed
      WHERE ${after === null} OR (key, branch) >= (SELECT branch_key, branch FROM begun)
      WINDOW in_order AS (ORDER BY key, branch)),
    candidates AS (
      SELECT own.id, branches.key AS branch_key, own.branch, (${ofUnit} WHERE u.id = own.id) AS key
      FROM branches JOIN own USING (branch) WHERE branches.before < ${limit}),
    listed AS MATERIALIZED (
      SELECT id, row_number() OVER (ORDER BY branch_key, branch, key, id) AS place FROM candidates
      WHERE ${after === null} OR (branch_key, branch, key, id) > (SELECT branch_key, branch, key, id FROM begun)
      ORDER BY branch_key, branch, key, id LIMIT ${limit})`
}

/** A page of the units with how many of each stand how on a day; units that have nobody are left out. */
export async function listUnitCounts(
  tx: Transaction,
  scope: Scope,
  filter: ReadinessFilter,
  page: UnitsPage,
): Promise<UnitCounts[]> {
  return tx.$queryRaw<UnitCounts[]>`
    WITH ${readinessPairs(scope, Prisma.sql`${filter.day}::date`, filter)}, ${unitsInOrder(filter.unitId, page)}
    SELECT listed.id::text AS "unitId", json_agg(json_build_object('certification', certification, 'status', status,
      'required', required, 'count', count) ORDER BY certification, status, required) AS counts
    FROM listed JOIN sums ON sums.unit_id = listed.id GROUP BY listed.id, place ORDER BY place`
}

import { subtree, unitInScope } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** A ceremony of a day: so many posts ask for the certification. Milliseconds since 1970. */
export interface NeedRow {
  readonly id: string
  readonly title: string
  readonly unitId: string
  readonly from: number
  readonly to: number
  readonly posts: number
}

/** The ceremonies of a day, of a unit and those below it, that ask for a certification, in order of time. */
export async function listNeeds(
  tx: Transaction,
  scope: Scope,
  { unitId, certificationId, on }: { unitId: string | undefined; certificationId: string; on: string },
): Promise<NeedRow[]> {
  return tx.$queryRaw<NeedRow[]>`
    SELECT c.id::text, c.title, c.unit_id::text AS "unitId", count(*)::int AS posts,
      floor(extract(epoch FROM c.reports_at - make_interval(mins => c.minutes_before)) * 1000)::float8 AS "from",
      floor(extract(epoch FROM c.ends_at + make_interval(mins => c.minutes_after)) * 1000)::float8 AS "to"
    FROM ceremony c JOIN post p ON p.ceremony_id = c.id AND p.certification_id = ${certificationId}::uuid
    WHERE c.day = ${on}::date AND c.cancelled_at IS NULL AND ${unitInScope(scope, Prisma.sql`c.unit_id`)}
      AND ${unitId === undefined ? Prisma.sql`true` : Prisma.sql`c.unit_id = ANY(${subtree(unitId)})`}
    GROUP BY c.id ORDER BY c.starts_at, c.id`
}

/** The next days with ceremonies that call on a unit (of it, above or below it), and the certifications asked for on each. */
export async function listCeremonyDays(
  tx: Transaction,
  scope: Scope,
  { unitId, from, limit }: { unitId: string | undefined; from: string; limit: number },
): Promise<{ on: string; certification: string }[]> {
  return tx.$queryRaw<{ on: string; certification: string }[]>`
    SELECT day::text AS "on", cert.code AS certification FROM (
      SELECT DISTINCT dense_rank() OVER (ORDER BY c.day) AS place, c.day, p.certification_id
      FROM ceremony c JOIN unit u ON u.id = c.unit_id JOIN post p ON p.ceremony_id = c.id
      WHERE c.day >= ${from}::date AND c.cancelled_at IS NULL AND ${unitInScope(scope, Prisma.sql`c.unit_id`)}
        AND ${
          unitId === undefined
            ? Prisma.sql`true`
            : Prisma.sql`(u.lineage @> ARRAY[${unitId}::uuid]
              OR (SELECT lineage FROM unit WHERE id = ${unitId}::uuid) @> ARRAY[u.id])`
        }) d
    JOIN certification cert ON cert.id = d.certification_id WHERE place <= ${limit} ORDER BY day, cert.code`
}

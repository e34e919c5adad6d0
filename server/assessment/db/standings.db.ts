import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { CertificationStatus } from '../../contract/standards/certifications.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

export interface ReadinessFilter {
  readonly day: string
  /** The unit with all below it; undefined: everyone in the strength. */
  readonly unitId?: string | undefined
  readonly certification?: string | undefined
}

/** Columns of a stored standing; a soldier without one that day has no test yet. */
const STATUS = Prisma.sql`
  COALESCE(st.status, 'no test yet') AS status, st.awarded_on::text AS "awardedOn", st.valid_through::text AS "validThrough",
  COALESCE(st.suspended, false) AS suspended, COALESCE(st.toward, '[]') AS toward,
  COALESCE(st.retest_open, '{}') AS "retestOpen"`

/** The standing of a soldier in a certification on a day, found by one step down the index. */
const standingOn = (day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  LEFT JOIN LATERAL (
    SELECT * FROM (SELECT * FROM standing x WHERE x.soldier_id = p.soldier_id AND x.certification_id = c.id
      AND x.from_day <= ${day} ORDER BY x.from_day DESC LIMIT 1) latest
    WHERE latest.through_day IS NULL OR latest.through_day >= ${day}) st ON true`

/**
 * CTEs that end with `shown`: each soldier of the strength on a day (SQL of a date) with each certification that fits them
 * or that they hold, and whether they are
 * required to hold it by the terms of the day. `among`: a question for ids of soldiers, where others do not matter.
 */
export const readinessPairs = (
  scope: Scope,
  day: Prisma.Sql,
  { unitId, certification }: Omit<ReadinessFilter, 'day'>,
  among: Prisma.Sql | null = null,
): Prisma.Sql => Prisma.sql`
  people AS MATERIALIZED (
    SELECT p.soldier_id, p.unit_id, p.grade, p.arms FROM soldier_period p
    WHERE daterange(p.from_day, p.through_day, '[]') @> ${day}
      AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`p.unit_id`)}
      ${unitId ? Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})` : Prisma.empty}
      ${among ? Prisma.sql`AND p.soldier_id IN (${among})` : Prisma.empty}),
  certs AS MATERIALIZED (
    SELECT c.id, c.code, c.arms, t.required_grades, t.required_units FROM certification c
    CROSS JOIN LATERAL (SELECT * FROM certification_terms t WHERE t.certification_id = c.id
      ORDER BY t.effective_from <= ${day} DESC,
        CASE WHEN t.effective_from <= ${day} THEN ${day} - t.effective_from
          ELSE t.effective_from - ${day} END LIMIT 1) t
    WHERE ${certification === undefined} OR c.code = ${certification ?? ''}),
  pairs AS MATERIALIZED (
    SELECT p.soldier_id, p.unit_id, p.grade, c.id AS certification_id, c.code AS certification, ${STATUS},
      (cardinality(c.arms) = 0 OR c.arms && p.arms)
        AND (c.required_grades IS NULL OR c.required_grades ? p.grade)
        AND (c.required_units IS NULL OR EXISTS (
          SELECT FROM unit u WHERE u.id = p.unit_id
            AND u.lineage && ARRAY(SELECT jsonb_array_elements_text(c.required_units)::uuid))) AS required,
      cardinality(c.arms) = 0 OR c.arms && p.arms AS fits
    FROM people p CROSS JOIN certs c ${standingOn(day)}),
  shown AS (SELECT * FROM pairs WHERE fits OR status IN ('certified', 'suspended'))`

/** Soldiers with the arms of a day (none outside the strength), each with every certification that fits them, and the standing there. */
const statusesOf = (soldiers: Prisma.Sql, scope: Scope, day: string): Prisma.Sql => Prisma.sql`
  FROM certification c
  CROSS JOIN (SELECT asked.id AS soldier_id, COALESCE(period.arms, '{}') AS arms FROM (${soldiers}) asked
    LEFT JOIN soldier_period period ON period.soldier_id = asked.id
      AND daterange(period.from_day, period.through_day, '[]') @> ${day}::date) p
  ${standingOn(Prisma.sql`${day}::date`)}
  WHERE (cardinality(c.arms) = 0 OR c.arms && p.arms) AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`)}`

/** The statuses of several soldiers in each certification that fits them that day, in one question; by soldier and code. */
export async function readStatusesOfMany(
  tx: Transaction,
  scope: Scope,
  soldierIds: readonly string[],
  day: string,
): Promise<(CertificationStatus & { soldierId: string })[]> {
  const soldiers = Prisma.sql`SELECT unnest(${[...soldierIds]}::uuid[]) AS id`
  return tx.$queryRaw`
    SELECT p.soldier_id::text AS "soldierId", c.code AS certification, ${STATUS}
    ${statusesOf(soldiers, scope, day)} ORDER BY p.soldier_id, c.code`
}

/** A page of the statuses of one soldier in each certification that fits them that day, by code. */
export async function readStatuses(
  tx: Transaction,
  scope: Scope,
  soldierId: string,
  day: string,
  page: { limit: number; after: string | null },
): Promise<CertificationStatus[]> {
  return tx.$queryRaw`
    SELECT c.code AS certification, ${STATUS}
    ${statusesOf(Prisma.sql`SELECT ${soldierId}::uuid AS id`, scope, day)}
      AND (${page.after === null} OR c.code > ${page.after ?? ''})
    ORDER BY c.code LIMIT ${page.limit}`
}

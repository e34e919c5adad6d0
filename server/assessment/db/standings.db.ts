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

/** Columns of a stored standing `st`; a soldier without one that day has no test yet. */
export const STATUS = Prisma.sql`
  COALESCE(st.status, 'no test yet') AS status, st.awarded_on::text AS "awardedOn", st.valid_through::text AS "validThrough",
  COALESCE(st.suspended, false) AS suspended, COALESCE(st.toward, '[]') AS toward,
  COALESCE(st.retest_open, '{}') AS "retestOpen"`

/** The standing `st` of a soldier `p` in a certification `c` on a day, found by one step down the index. */
export const standingOn = (day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  LEFT JOIN LATERAL (
    SELECT * FROM (SELECT * FROM standing x WHERE x.soldier_id = p.soldier_id AND x.certification_id = c.id
      AND x.from_day <= ${day} ORDER BY x.from_day DESC LIMIT 1) latest
    WHERE latest.through_day IS NULL OR latest.through_day >= ${day}) st ON true`

/** CTE `certs`: the certifications (or one, by its code) with whom they are required of by the terms of a day. */
export const termsOn = (day: Prisma.Sql, certification: string | undefined): Prisma.Sql => Prisma.sql`
  certs AS MATERIALIZED (
    SELECT c.id, c.code, c.arms, t.required_grades, t.required_units FROM certification c
    CROSS JOIN LATERAL (SELECT * FROM certification_terms t WHERE t.certification_id = c.id
      ORDER BY t.effective_from <= ${day} DESC,
        CASE WHEN t.effective_from <= ${day} THEN ${day} - t.effective_from
          ELSE t.effective_from - ${day} END LIMIT 1) t
    WHERE ${certification === undefined} OR c.code = ${certification ?? ''})`

const FITS = Prisma.sql`(cardinality(c.arms) = 0 OR c.arms && p.arms)`

/** SQL: whether whoever has the period `p` is required to hold the certification `c` of `certs`. */
export const IS_REQUIRED = Prisma.sql`(${FITS}
  AND (c.required_grades IS NULL OR c.required_grades ? p.grade)
  AND (c.required_units IS NULL OR EXISTS (
    SELECT FROM unit u WHERE u.id = p.unit_id
      AND u.lineage && ARRAY(SELECT jsonb_array_elements_text(c.required_units)::uuid))))`

/**
 * CTEs that end with `shown`: each soldier of the strength on a day (SQL of a date) with each certification that fits them
 * or that they hold, their status there and how long it holds, and whether they are required to hold it by the terms of the
 * day. More of the standing is `standingOn`. Of everybody, periods and standings of the day are read all at once, which is
 * less work than a step down an index for each, but reads the tables from end to end: not for what desks ask (`atDesk`).
 */
export function readinessPairs(
  scope: Scope,
  day: Prisma.Sql,
  { unitId, certification }: Omit<ReadinessFilter, 'day'>,
  { atDesk = false }: { readonly atDesk?: boolean } = {},
): Prisma.Sql {
  const isOfAll = scope.everyone && unitId === undefined && !atDesk
  const inStrength = isOfAll
    ? Prisma.sql`p.from_day <= ${day} AND (p.through_day IS NULL OR p.through_day >= ${day})`
    : Prisma.sql`daterange(p.from_day, p.through_day, '[]') @> ${day}`
  const standings = isOfAll
    ? Prisma.sql`LEFT JOIN standing st ON st.soldier_id = p.soldier_id AND st.certification_id = c.id
        AND st.from_day <= ${day} AND (st.through_day IS NULL OR st.through_day >= ${day})`
    : standingOn(day)
  return Prisma.sql`
    people AS MATERIALIZED (
      SELECT p.soldier_id, p.unit_id, p.grade, p.arms FROM soldier_period p
      WHERE ${inStrength} AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`p.unit_id`)}
        ${unitId === undefined ? Prisma.empty : Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})`}),
    ${termsOn(day, certification)},
    pairs AS (
      SELECT p.soldier_id, p.unit_id, p.grade, c.id AS certification_id, c.code AS certification,
        COALESCE(st.status, 'no test yet') AS status, st.valid_through, ${IS_REQUIRED} AS required, ${FITS} AS fits
      FROM people p CROSS JOIN certs c ${standings}),
    shown AS MATERIALIZED (SELECT * FROM pairs WHERE fits OR status IN ('certified', 'suspended'))`
}

/** Soldiers with the arms of a day (none outside the strength), each with every certification that fits them, and the standing there. */
const statusesOf = (soldiers: Prisma.Sql, scope: Scope, day: string): Prisma.Sql => Prisma.sql`
  FROM certification c
  CROSS JOIN (SELECT asked.id AS soldier_id, COALESCE(period.arms, '{}') AS arms FROM (${soldiers}) asked
    LEFT JOIN soldier_period period ON period.soldier_id = asked.id
      AND daterange(period.from_day, period.through_day, '[]') @> ${day}::date) p
  ${standingOn(Prisma.sql`${day}::date`)}
  WHERE ${FITS} AND ${soldierInScope(scope, Prisma.sql`p.soldier_id`)}`

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

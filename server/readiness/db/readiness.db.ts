import { type ReadinessFilter, readinessPairs, STATUS, standingOn } from '../../assessment/db/standings.db.ts'
import type { Readiness, ReadinessSort } from '../../contract/standards/certifications.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { sortKey, standsAs, whyOf } from './readiness-rows.db.ts'
import { unitsInOrder } from './unit-counts.db.ts'

const dateOf = (day: string): Prisma.Sql => Prisma.sql`${day}::date`

type Item = Readiness['items'][number]

export interface ReadinessPage {
  readonly limit: number
  readonly sort: ReadinessSort
  readonly standing: 'can' | 'cannot' | undefined
  /** The day from which on bookings are told. */
  readonly today: string
  readonly after: { key: string; rosterNumber: string; certification: string } | null
  /** Of so many units the counts come with the first page; null: none are counted. */
  readonly units: number | null
}

interface ReadinessRows {
  readonly items: (Item & { key: string })[]
  readonly totals: Readiness['totals']
  readonly counts: Readiness['counts']
  /** The last of the units whose counts these are, where there are further ones. */
  readonly lastUnit: string | null
}

/**
 * A page of who can stand, in the order asked for, with why each may not; with the first page the counts of all, and of the
 * first units. One question a page.
 */
export async function readReadiness(
  tx: Transaction,
  scope: Scope,
  filter: ReadinessFilter,
  page: ReadinessPage,
): Promise<ReadinessRows> {
  const { key = '', rosterNumber = '', certification = '' } = page.after ?? {}
  const [direction, beyond] = page.sort.startsWith('-')
    ? [Prisma.sql`DESC`, Prisma.sql`<`]
    : [Prisma.sql`ASC`, Prisma.sql`>`]
  const day = dateOf(filter.day)
  const isFirst = page.after === null
  const units = isFirst ? page.units : null
  const [row] = await tx.$queryRaw<[ReadinessRows]>`
    WITH ${readinessPairs(scope, day, filter)},
    keyed AS (SELECT shown.*, s.roster_number, s.family_name, s.given_name, ${sortKey(page.sort)} AS key
      FROM shown JOIN soldier s ON s.id = shown.soldier_id JOIN unit u ON u.id = shown.unit_id
      WHERE ${standsAs(page.standing)}),
    first AS MATERIALIZED (SELECT * FROM keyed
      WHERE ${isFirst} OR (key, roster_number, certification) ${beyond} (${key}, ${rosterNumber}, ${certification})
      ORDER BY key ${direction}, roster_number ${direction}, certification ${direction} LIMIT ${page.limit}),
    page AS MATERIALIZED (
      SELECT p.soldier_id, p.certification_id, p.unit_id, p.grade, p.certification, p.required, p.roster_number,
        p.family_name, p.given_name, p.key, ${STATUS}
      FROM first p CROSS JOIN LATERAL (SELECT p.certification_id AS id) c ${standingOn(day)})
    ${units === null ? Prisma.empty : Prisma.sql`, ${unitsInOrder(filter.unitId, { after: null, limit: units + 1 })}`}
    SELECT
      (SELECT COALESCE(json_agg(listed ORDER BY key ${direction}, "rosterNumber" ${direction}, certification ${direction}), '[]')
        FROM (SELECT soldier_id AS "soldierId", roster_number AS "rosterNumber",
          family_name || ', ' || given_name AS name, grade, unit_id AS "unitId", required, certification, status,
          "awardedOn", "validThrough", suspended, toward, "retestOpen", ${whyOf(day, dateOf(page.today))}, key
        FROM page) listed) AS items,
      ${units === null ? Prisma.sql`'[]'::json AS totals, '[]'::json AS counts, NULL AS "lastUnit"` : countsOf(units)}`
  return row
}

const countsOf = (units: number): Prisma.Sql => Prisma.sql`
  (SELECT COALESCE(json_agg(json_build_object('certification', certification, 'status', status, 'required', required,
      'count', count) ORDER BY certification, status, required), '[]')
    FROM (SELECT certification, status, required, sum(count) AS count FROM sums GROUP BY 1, 2, 3) of_all) AS totals,
  (SELECT COALESCE(json_agg(json_build_object('unitId', unit_id, 'certification', certification, 'status', status,
      'required', required, 'count', count) ORDER BY place, certification, status, required), '[]')
    FROM listed JOIN sums ON sums.unit_id = listed.id WHERE place <= ${units}) AS counts,
  (SELECT id::text FROM listed WHERE place = ${units} AND EXISTS (SELECT FROM listed WHERE place > ${units})) AS "lastUnit"`

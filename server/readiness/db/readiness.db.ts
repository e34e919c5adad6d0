import { type ReadinessFilter, readinessPairs } from '../../assessment/db/standings.db.ts'
import type { Readiness, ReadinessSort } from '../../contract/standards/certifications.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { sortKey, standsAs, whyOf } from './readiness-rows.db.ts'

const dateOf = (day: string): Prisma.Sql => Prisma.sql`${day}::date`

type Item = Readiness['items'][number]

export interface ReadinessPage {
  readonly limit: number
  readonly sort: ReadinessSort
  readonly standing: 'can' | 'cannot' | undefined
  /** The day from which on bookings are told. */
  readonly today: string
  readonly after: { key: string; rosterNumber: string; certification: string } | null
}

/** A page of who can stand, in the order asked for, with why each may not, and the counts of all. One question a page. */
export async function readReadiness(
  tx: Transaction,
  scope: Scope,
  filter: ReadinessFilter,
  page: ReadinessPage,
): Promise<{ items: (Item & { key: string })[]; counts: Readiness['counts'] }> {
  const { key = '', rosterNumber = '', certification = '' } = page.after ?? {}
  const [direction, beyond] = page.sort.startsWith('-')
    ? [Prisma.sql`DESC`, Prisma.sql`<`]
    : [Prisma.sql`ASC`, Prisma.sql`>`]
  const [row] = await tx.$queryRaw<[{ items: (Item & { key: string })[]; counts: Readiness['counts'] }]>`
    WITH ${readinessPairs(scope, dateOf(filter.day), filter)},
    keyed AS (SELECT shown.*, s.roster_number, s.family_name, s.given_name, ${sortKey(page.sort)} AS key
      FROM shown JOIN soldier s ON s.id = shown.soldier_id JOIN unit u ON u.id = shown.unit_id
      WHERE ${standsAs(page.standing)}),
    page AS MATERIALIZED (SELECT * FROM keyed
      WHERE ${page.after === null} OR (key, roster_number, certification) ${beyond} (${key}, ${rosterNumber}, ${certification})
      ORDER BY key ${direction}, roster_number ${direction}, certification ${direction} LIMIT ${page.limit})
    SELECT
      (SELECT COALESCE(json_agg(listed ORDER BY key ${direction}, "rosterNumber" ${direction}, certification ${direction}), '[]')
        FROM (SELECT soldier_id AS "soldierId", roster_number AS "rosterNumber",
          family_name || ', ' || given_name AS name, grade, unit_id AS "unitId", required, certification, status,
          "awardedOn", "validThrough", suspended, toward, "retestOpen", ${whyOf(dateOf(filter.day), dateOf(page.today))}, key
        FROM page) listed) AS items,
      (SELECT COALESCE(json_agg(sums), '[]') FROM (
        SELECT unit_id AS "unitId", certification, status, required, count(*)::int AS count FROM shown
        GROUP BY unit_id, certification, status, required ORDER BY unit_id, certification, status, required) sums) AS counts`
  return row
}

import type { Scope } from '../domain/access/scope.ts'
import type { Transaction } from './client.ts'
import { Prisma } from './generated/client.ts'
import { type FactsRow, facts, OCCASION } from './manning-facts.db.ts'
import { soldierInScope, subtree } from './scope.db.ts'

export interface CandidateRow extends FactsRow {
  /** Ceremonies stood at (or named to) within the days before this one. */
  readonly load: number
}

export interface CandidateFilter {
  readonly ceremonyId: string
  readonly postId: string
  /** Parts of roster number, name or grade: anybody of the strength. Without: who is certified, of a fitting grade and arm. */
  readonly search?: string | undefined
  /** How many days before the ceremony duties are counted. */
  readonly days: number
}

/**
 * A page of soldiers of the ceremony's unit (and in scope) who could be named to a post, who stood least first: by number
 * of ceremonies, then roster number.
 */
export async function listPostCandidates(
  tx: Transaction,
  scope: Scope,
  { ceremonyId, postId, search, days }: CandidateFilter,
  page: { limit: number; after: { load: number; rosterNumber: string } | null },
): Promise<CandidateRow[]> {
  const conditions = search === undefined ? [FITTING] : searched(search)
  const { load = 0, rosterNumber = '' } = page.after ?? {}
  const after = page.after ? Prisma.sql`WHERE (load, roster_number) > (${load}::int, ${rosterNumber})` : Prisma.empty
  return tx.$queryRaw<CandidateRow[]>`
    WITH chosen AS MATERIALIZED (SELECT * FROM ceremony WHERE id = ${ceremonyId}::uuid), ${OCCASION},
    asked AS MATERIALIZED (SELECT p.*, chosen.day, chosen.unit_id FROM post p JOIN chosen ON chosen.id = p.ceremony_id
      WHERE p.id = ${postId}::uuid),
    people AS MATERIALIZED (
      SELECT sp.soldier_id, s.roster_number FROM asked
      JOIN soldier_period sp ON daterange(sp.from_day, sp.through_day, '[]') @> asked.day
      JOIN soldier s ON s.id = sp.soldier_id JOIN unit u ON u.id = sp.unit_id
      WHERE u.lineage @> ARRAY[asked.unit_id] AND ${soldierInScope(scope, Prisma.sql`sp.soldier_id`, Prisma.sql`sp.unit_id`)}
        AND ${Prisma.join(conditions, ' AND ')}),
    loaded AS (
      SELECT people.*, (SELECT count(*)::int FROM post q JOIN ceremony c ON c.id = q.ceremony_id
        WHERE q.soldier_id = people.soldier_id AND c.id <> ${ceremonyId}::uuid AND c.cancelled_at IS NULL
          AND c.day <= asked.day AND c.day >= asked.day - ${days}::int) AS load
      FROM people CROSS JOIN asked),
    shown AS MATERIALIZED (SELECT * FROM loaded ${after} ORDER BY load, roster_number LIMIT ${page.limit}),
    pairs AS (SELECT ${ceremonyId}::uuid AS ceremony_id, shown.soldier_id, asked.certification_id FROM shown CROSS JOIN asked)
    SELECT f.*, shown.load FROM (${facts(scope)}) f JOIN shown ON shown.soldier_id = f."soldierId"::uuid
    ORDER BY shown.load, shown.roster_number`
}

/** SQL: certified that day, of a grade and arm the post takes. What else speaks against somebody is judged after. */
const FITTING = Prisma.sql`
  (asked.grades IS NULL OR asked.grades ? sp.grade) AND (asked.arm IS NULL OR asked.arm = ANY(sp.arms))
  AND EXISTS (SELECT FROM standing st WHERE st.soldier_id = sp.soldier_id AND st.certification_id = asked.certification_id
    AND st.from_day <= asked.day AND (st.through_day IS NULL OR st.through_day >= asked.day) AND st.status = 'certified')`

const searched = (search: string): Prisma.Sql[] => {
  const words = search.split(/[\s,]+/).filter(Boolean)
  return [
    Prisma.sql`true`,
    ...words.map((word) => {
      const pattern = `%${word.replace(/[\\%_]/g, '\\$&')}%`
      return Prisma.sql`(s.roster_number ILIKE ${pattern} OR s.family_name ILIKE ${pattern} OR s.given_name ILIKE ${pattern}
        OR sp.grade ILIKE ${pattern})`
    }),
  ]
}

export interface OutlookRow extends FactsRow {
  readonly statusToday: FactsRow['status']
  readonly toward: { standard: string; countsUntil: string }[]
  readonly retests: { standard: string; earliest: string; needsReview: boolean }[]
  readonly bookings: { standard: string; on: string; testDayId: string }[]
}

/**
 * Everybody of a unit and the ceremony's, in scope, with each certification that its posts ask for and that fits them:
 * facts of that day, and what lies on the way to it from today. By roster number. At most `limit` rows.
 */
export async function readOutlook(
  tx: Transaction,
  scope: Scope,
  filter: { ceremonyId: string; unitId: string | undefined; today: string; limit: number },
): Promise<OutlookRow[]> {
  const { ceremonyId, unitId, today, limit } = filter
  const ofUnit = unitId ? Prisma.sql`AND sp.unit_id = ANY(${subtree(unitId)})` : Prisma.empty
  return tx.$queryRaw<OutlookRow[]>`
    WITH chosen AS MATERIALIZED (SELECT * FROM ceremony WHERE id = ${ceremonyId}::uuid), ${OCCASION},
    pairs AS MATERIALIZED (
      SELECT chosen.id AS ceremony_id, sp.soldier_id, cert.id AS certification_id FROM chosen
      JOIN soldier_period sp ON daterange(sp.from_day, sp.through_day, '[]') @> chosen.day
      JOIN unit u ON u.id = sp.unit_id
      JOIN certification cert ON cardinality(cert.arms) = 0 OR cert.arms && sp.arms
      WHERE u.lineage @> ARRAY[chosen.unit_id] AND ${soldierInScope(scope, Prisma.sql`sp.soldier_id`, Prisma.sql`sp.unit_id`)}
        ${ofUnit}
        AND EXISTS (SELECT FROM post p WHERE p.ceremony_id = chosen.id AND p.certification_id = cert.id
          AND (p.arm IS NULL OR p.arm = ANY(sp.arms)) AND (p.grades IS NULL OR p.grades ? sp.grade))
      LIMIT ${limit})
    SELECT f.*, COALESCE(st.status, 'no test yet') AS "statusToday",
      (SELECT COALESCE(json_agg(json_build_object('standard', t ->> 'standard', 'countsUntil', t ->> 'countsUntil')), '[]')
        FROM jsonb_array_elements(COALESCE(st.toward, '[]')) t) AS toward,
      (SELECT COALESCE(json_agg(json_build_object('standard', r.standard, 'earliest', r.earliest,
          'needsReview', r.needs_review)), '[]') FROM retest_span r
        WHERE r.soldier_id = f."soldierId"::uuid AND r.certification_id = cert.id
          AND daterange(r.from_day, r.through_day, '[]') @> ${today}::date) AS retests,
      (SELECT COALESCE(json_agg(json_build_object('standard', std.code, 'on', td.on_day, 'testDayId', td.id)), '[]')
        FROM booking b JOIN test_day td ON td.id = b.test_day_id JOIN standard std ON std.id = b.standard_id
        WHERE b.candidate_id = f."soldierId"::uuid AND b.state IN ('booked', 'checked in') AND td.called_off_at IS NULL
          AND td.on_day >= ${today}::date) AS bookings
    FROM (${facts(scope)}) f JOIN certification cert ON cert.code = f.certification
    LEFT JOIN LATERAL (SELECT * FROM standing x WHERE x.soldier_id = f."soldierId"::uuid AND x.certification_id = cert.id
      AND x.from_day <= ${today}::date AND (x.through_day IS NULL OR x.through_day >= ${today}::date)
      ORDER BY x.from_day DESC LIMIT 1) st ON true
    ORDER BY f."rosterNumber", f.certification`
}

/**
 * Test days from one day up to another (left out) that take somebody still: with a free slot that has not begun, or with
 * none laid out yet. In order of day.
 */
export async function listOpenTestDays(
  tx: Transaction,
  from: string,
  before: string,
  now: Date,
): Promise<{ id: string; on: string }[]> {
  return tx.$queryRaw<{ id: string; on: string }[]>`
    SELECT td.id::text, td.on_day::text AS "on" FROM test_day td
    WHERE td.on_day >= ${from}::date AND td.on_day < ${before}::date AND td.called_off_at IS NULL
      AND (NOT EXISTS (SELECT FROM slot WHERE slot.test_day_id = td.id)
        OR EXISTS (SELECT FROM slot WHERE slot.test_day_id = td.id AND slot.starts_at > ${now} AND NOT EXISTS
          (SELECT FROM booking b WHERE b.slot_id = slot.id AND b.state <> 'cancelled')))
    ORDER BY td.on_day, td.id`
}

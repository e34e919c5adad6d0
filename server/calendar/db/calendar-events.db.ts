import { subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { CalendarEvent } from '../../domain/calendar/calendar-event.ts'
import { testDayVisible } from '../../test-days/db/test-days.db.ts'

/** Whose events, from which day to which. */
export interface CalendarSpan {
  readonly soldierId: string
  readonly today: string
  readonly from: string
  readonly to: string
}

const instant = (column: string): Prisma.Sql =>
  Prisma.raw(`to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')`)

/** Tests a soldier takes, grades, or has a present candidate in; without the names of the others. */
export async function listTestEvents(
  tx: Transaction,
  { soldierId, today, from, to }: CalendarSpan,
  asSponsor: boolean,
): Promise<CalendarEvent[]> {
  const me = Prisma.sql`${soldierId}::uuid`
  return tx.$queryRaw<CalendarEvent[]>`
    SELECT 'test-' || b.id AS id,
      CASE WHEN b.candidate_id = ${me} THEN 'Test: ' WHEN ${me} IN (b.grader_id, b.second_grader_id) THEN 'Grading: '
        ELSE 'Test of your candidate: ' END || v.title AS title,
      d.place, d.on_day::text AS day, ${instant('COALESCE(sl.starts_at, b.starts_at)')} AS "startsAt",
      ${instant('sl.ends_at')} AS "endsAt", COALESCE(d.call_off_reason, '') AS note,
      b.state = 'cancelled' OR d.called_off_at IS NOT NULL AS cancelled, '/test-days/' || d.id AS path
    FROM booking b JOIN test_day d ON d.id = b.test_day_id LEFT JOIN slot sl ON sl.id = b.slot_id
    CROSS JOIN LATERAL (SELECT x.definition->>'title' AS title FROM standard_version x WHERE x.standard_id = b.standard_id
      ORDER BY x.published_at IS NULL, x.version DESC LIMIT 1) v
    WHERE d.on_day BETWEEN ${from}::date AND ${to}::date AND b.state NOT IN ('excused', 'turned away')
      AND (b.candidate_id = ${me} OR b.grader_id = ${me} OR b.second_grader_id = ${me}
        OR ${asSponsor} AND b.candidate_id IN (SELECT candidate_id FROM sponsorship WHERE sponsor_id = ${me}
          AND daterange(from_day, to_day, '[]') @> ${today}::date))`
}

/** The open retests of a soldier, and where asked of their present candidates: the first day and the day it is due. */
export async function listRetestEvents(
  tx: Transaction,
  { soldierId, today }: CalendarSpan,
  asSponsor: boolean,
): Promise<CalendarEvent[]> {
  const me = Prisma.sql`${soldierId}::uuid`
  return tx.$queryRaw<CalendarEvent[]>`
    SELECT 'retest-' || e.what || '-' || r.soldier_id || '-' || c.code || '-' || r.standard AS id,
      CASE e.what WHEN 'due' THEN 'Retest due' ELSE 'Retest possible from today' END
        || CASE WHEN r.soldier_id = ${me} THEN ': ' ELSE ', your candidate: ' END || v.title AS title,
      '' AS place, e.day::text AS day, NULL AS "startsAt", NULL AS "endsAt",
      CASE WHEN r.needs_review THEN 'A review comes first.' ELSE '' END AS note, false AS cancelled,
      '/candidates/' || r.soldier_id AS path
    FROM retest_span r JOIN certification c ON c.id = r.certification_id
    JOIN soldier_period p ON p.soldier_id = r.soldier_id AND daterange(p.from_day, p.through_day, '[]') @> ${today}::date
    CROSS JOIN LATERAL (VALUES ('earliest', r.earliest), ('due', r.due)) e(what, day)
    CROSS JOIN LATERAL (SELECT x.definition->>'title' AS title FROM standard_version x JOIN standard s ON s.id = x.standard_id
      WHERE s.code = r.standard ORDER BY x.published_at IS NULL, x.version DESC LIMIT 1) v
    WHERE (r.soldier_id = ${me} OR ${asSponsor} AND r.soldier_id IN (SELECT candidate_id FROM sponsorship
        WHERE sponsor_id = ${me} AND daterange(from_day, to_day, '[]') @> ${today}::date))
      AND r.from_day <= ${today}::date AND (r.through_day IS NULL OR r.through_day >= ${today}::date)
      AND (cardinality(c.arms) = 0 OR c.arms && p.arms)`
}

/**
 * What commanders were asked and said of a soldier's certifications: one that waits, on the day it was earned; one that was
 * approved, on the day from which it is in force; one that was extended, on its last day as extended.
 */
export async function listAwardEvents(
  tx: Transaction,
  { soldierId, today, from, to }: CalendarSpan,
): Promise<CalendarEvent[]> {
  const me = Prisma.sql`${soldierId}::uuid`
  const event = (what: string, id: Prisma.Sql, title: string, day: Prisma.Sql, note: string) => Prisma.sql`
    SELECT ${`${what}-`}::text || ${id} || '-' || c.code AS id, ${`${title}: `}::text || c.title AS title, '' AS place,
      ${day}::text AS day, NULL::text AS "startsAt", NULL::text AS "endsAt", ${note}::text AS note, false AS cancelled,
      '/candidates/' || ${me} AS path`
  const spans = (day: Prisma.Sql) => Prisma.sql`${day} BETWEEN ${from}::date AND ${to}::date`
  return tx.$queryRaw<CalendarEvent[]>`
    ${event('award', Prisma.sql`e.sheet_id`, 'Certification earned', Prisma.sql`e.awarded_on`, 'It waits for a commander’s approval.')}
    FROM earned_award e JOIN certification c ON c.id = e.certification_id
    WHERE e.soldier_id = ${me} AND e.in_force_from IS NULL AND ${spans(Prisma.sql`e.awarded_on`)}
    UNION ALL
    ${event('award', Prisma.sql`e.sheet_id`, 'Certification in force', Prisma.sql`e.in_force_from`, 'A commander approved it.')}
    FROM earned_award e JOIN certification c ON c.id = e.certification_id
    WHERE e.soldier_id = ${me} AND ${spans(Prisma.sql`e.in_force_from`)}
      AND EXISTS (SELECT FROM award_decision d WHERE d.sheet_id = e.sheet_id AND d.certification_id = e.certification_id
        AND d.taken_back_at IS NULL)
    UNION ALL
    ${event('last-day', me, 'Last day of your certification', Prisma.sql`s.valid_through`, 'As a commander extended it.')}
    FROM standing s JOIN certification c ON c.id = s.certification_id
    WHERE s.soldier_id = ${me} AND s.status = 'certified' AND daterange(s.from_day, s.through_day, '[]') @> ${today}::date
      AND ${spans(Prisma.sql`s.valid_through`)} AND EXISTS (SELECT FROM award_extension x WHERE x.taken_back_at IS NULL
        AND x.soldier_id = s.soldier_id AND x.certification_id = s.certification_id
        AND (x.sheet_id IN (SELECT sheet_id FROM earned_award e WHERE e.soldier_id = s.soldier_id
            AND e.certification_id = s.certification_id AND e.awarded_on = s.awarded_on)
          OR x.carried_award_id IN (SELECT id FROM carried_award a WHERE a.soldier_id = s.soldier_id
            AND a.certification_id = s.certification_id AND a.awarded_on = s.awarded_on)))`
}

type CeremonySpan = Omit<CalendarSpan, 'soldierId'>

/** Ceremonies that meet a condition on `c`, with their rehearsals. */
const ceremonies = (tx: Transaction, { from, to }: CeremonySpan, named: Prisma.Sql): Promise<CalendarEvent[]> =>
  tx.$queryRaw<CalendarEvent[]>`
    SELECT 'ceremony-' || c.id AS id, c.title, c.place, c.day::text AS day, ${instant('c.reports_at')} AS "startsAt",
      ${instant('c.ends_at')} AS "endsAt",
      COALESCE('Called off: ' || c.cancel_reason, CASE WHEN c.reports_at < c.starts_at
        THEN 'Begins with reporting; the ceremony starts '
          || (extract(epoch FROM c.starts_at - c.reports_at) / 60)::int || ' minutes later.' ELSE '' END) AS note,
      c.cancelled_at IS NOT NULL AS cancelled, '/ceremonies/' || c.id AS path
    FROM ceremony c WHERE c.day BETWEEN ${from}::date AND ${to}::date AND ${named}
    UNION ALL
    SELECT 'rehearsal-' || r.id, 'Rehearsal: ' || c.title, r.place, r.day::text, ${instant('r.starts_at')},
      ${instant('r.ends_at')}, '', c.cancelled_at IS NOT NULL, '/ceremonies/' || c.id
    FROM rehearsal r JOIN ceremony c ON c.id = r.ceremony_id
    WHERE r.day BETWEEN ${from}::date AND ${to}::date AND ${named}`

/** Ceremonies a soldier is named to, as alternate too. */
export const listOwnCeremonyEvents = (
  tx: Transaction,
  { soldierId, ...span }: CalendarSpan,
): Promise<CalendarEvent[]> =>
  ceremonies(
    tx,
    span,
    Prisma.sql`(EXISTS (SELECT FROM post WHERE post.ceremony_id = c.id AND post.soldier_id = ${soldierId}::uuid)
      OR EXISTS (SELECT FROM alternate a WHERE a.ceremony_id = c.id AND a.soldier_id = ${soldierId}::uuid))`,
  )

/** Ceremonies of a unit and all below it; null: all. */
export const listUnitCeremonyEvents = (
  tx: Transaction,
  span: CeremonySpan,
  unitId: string | null,
): Promise<CalendarEvent[]> =>
  ceremonies(tx, span, unitId === null ? Prisma.sql`true` : Prisma.sql`c.unit_id = ANY(${subtree(unitId)})`)

/** The test days a scope lets one see, in order. */
export async function listTestDayEvents(
  tx: Transaction,
  { from, to }: CeremonySpan,
  scope: Scope,
): Promise<CalendarEvent[]> {
  return tx.$queryRaw<CalendarEvent[]>`
    SELECT 'test-day-' || d.id AS id, 'Test day, ' || u.name AS title, d.place, d.on_day::text AS day, NULL AS "startsAt",
      NULL AS "endsAt", COALESCE('Called off: ' || d.call_off_reason, '') AS note, d.called_off_at IS NOT NULL AS cancelled,
      '/' AS path
    FROM test_day d JOIN unit u ON u.id = d.unit_id WHERE d.on_day BETWEEN ${from}::date AND ${to}::date
      AND ${testDayVisible(scope)} ORDER BY d.on_day, d.id`
}

import { soldierInScope, unitInScope } from '../../access/db/scope.db.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { StatusWord } from '../../domain/certification/types.ts'
import type { OtherDuty } from '../../domain/manning/types.ts'

/** What is known of a soldier for a ceremony and a certification. Instants in milliseconds since 1970. */
export interface FactsRow {
  readonly ceremonyId: string
  readonly soldierId: string
  readonly certification: string
  readonly inScope: boolean
  readonly rosterNumber: string
  readonly name: string
  readonly unitId: string | null
  readonly grade: string | null
  readonly arms: string[]
  readonly heightCm: number | null
  readonly status: StatusWord
  readonly validThrough: string | null
  readonly missing: string[]
  readonly certifiedAt: number | null
  readonly absences: { kind: string; from: string; through: string | null }[]
  readonly duties: OtherDuty[]
}

export const millis = (instant: Prisma.Sql): Prisma.Sql =>
  Prisma.sql`floor(extract(epoch FROM ${instant}) * 1000)::float8`

/** How long a test lasts that is booked for a time, but in no slot. */
const TEST_MINUTES = 60

/**
 * SQL of the table `occasion`: the ceremonies of a table `chosen`, and all the time that counts for somebody's other
 * duties and absences, from the first rehearsal to the end.
 */
export const OCCASION = Prisma.sql`
  occasion AS MATERIALIZED (
    SELECT c.id, c.day, c.starts_at, around.since, around.until, around.first_day, around.last_day FROM chosen c
    CROSS JOIN LATERAL (
      SELECT LEAST(c.reports_at, min(r.starts_at)) - make_interval(mins => c.minutes_before) AS since,
        GREATEST(c.ends_at, max(r.ends_at)) + make_interval(mins => c.minutes_after) AS until,
        LEAST(c.day, min(r.day)) AS first_day, GREATEST(c.day, max(r.day)) AS last_day
      FROM rehearsal r WHERE r.ceremony_id = c.id) around)`

/** SQL: the standing of soldier `p` in their certification on a day, found by one step down the index. */
const standingOn = (day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (SELECT * FROM (SELECT * FROM standing x WHERE x.soldier_id = p.soldier_id AND x.certification_id = p.certification_id
      AND x.from_day <= ${day} ORDER BY x.from_day DESC LIMIT 1) latest
    WHERE latest.through_day IS NULL OR latest.through_day >= ${day})`

/** SQL of the duties of soldier `p` beside ceremony `o` in all that time; titles only of ceremonies in scope. */
const duties = (scope: Scope): Prisma.Sql => Prisma.sql`
  (SELECT COALESCE(json_agg(json_build_object('kind', d.kind, 'title',
      CASE WHEN ${unitInScope(scope, Prisma.sql`d.unit_id`)} THEN d.title END,
      'from', ${millis(Prisma.sql`d.since`)}, 'to', ${millis(Prisma.sql`d.until`)}) ORDER BY d.since, d.kind), '[]')
    FROM (
      SELECT CASE WHEN named.stands THEN 'ceremony' ELSE 'alternate' END AS kind, c.title, c.unit_id,
        c.reports_at - make_interval(mins => c.minutes_before) AS since,
        c.ends_at + make_interval(mins => c.minutes_after) AS until
      FROM (SELECT ceremony_id, true AS stands FROM post WHERE soldier_id = p.soldier_id
        UNION ALL SELECT ceremony_id, false FROM alternate WHERE soldier_id = p.soldier_id) named
      JOIN ceremony c ON c.id = named.ceremony_id WHERE c.id <> o.id AND c.cancelled_at IS NULL
      UNION ALL
      SELECT 'rehearsal', c.title, c.unit_id, r.starts_at - make_interval(mins => c.minutes_before),
        r.ends_at + make_interval(mins => c.minutes_after)
      FROM (SELECT ceremony_id FROM post WHERE soldier_id = p.soldier_id
        UNION SELECT ceremony_id FROM alternate WHERE soldier_id = p.soldier_id) named
      JOIN ceremony c ON c.id = named.ceremony_id JOIN rehearsal r ON r.ceremony_id = c.id
      WHERE c.id <> o.id AND c.cancelled_at IS NULL
      UNION ALL
      SELECT 'test', td.place, td.unit_id, COALESCE(slot.starts_at, b.starts_at),
        COALESCE(slot.ends_at, b.starts_at + make_interval(mins => ${TEST_MINUTES}))
      FROM booking b JOIN test_day td ON td.id = b.test_day_id LEFT JOIN slot ON slot.id = b.slot_id
      WHERE b.candidate_id = p.soldier_id AND b.state IN ('booked', 'checked in', 'tested') AND td.called_off_at IS NULL
      UNION ALL
      SELECT 'grading', td.place, td.unit_id, slot.starts_at, slot.ends_at
      FROM slot JOIN test_day td ON td.id = slot.test_day_id
      WHERE slot.grader_id = p.soldier_id AND td.called_off_at IS NULL
      UNION ALL
      SELECT 'grading', td.place, td.unit_id, b.starts_at, b.starts_at + make_interval(mins => ${TEST_MINUTES})
      FROM booking b JOIN test_day td ON td.id = b.test_day_id
      WHERE b.grader_id = p.soldier_id AND b.slot_id IS NULL AND b.state IN ('booked', 'checked in', 'tested')
        AND td.called_off_at IS NULL) d
    WHERE d.since < o.until AND d.until > o.since) AS duties`

/**
 * SQL of one row (FactsRow) for each row of a table `pairs` (ceremony_id, soldier_id, certification_id),
 * for ceremonies of a table `occasion`.
 *
 * Certified only by tests of the very day is whose standing of the day before does not reach it; the first test of that
 * day that made an award says from when.
 */
export const facts = (scope: Scope): Prisma.Sql => Prisma.sql`
  SELECT p.ceremony_id::text AS "ceremonyId", p.soldier_id::text AS "soldierId", cert.code AS certification,
    (CASE WHEN period.soldier_id IS NULL THEN ${soldierInScope(scope, Prisma.sql`p.soldier_id`)}
      ELSE ${soldierInScope(scope, Prisma.sql`p.soldier_id`, Prisma.sql`period.unit_id`)} END) AS "inScope",
    s.roster_number AS "rosterNumber", s.family_name || ', ' || s.given_name AS name, period.unit_id::text AS "unitId",
    period.grade, COALESCE(period.arms, '{}') AS arms, s.height_cm AS "heightCm",
    COALESCE(st.status, 'no test yet') AS status, st.valid_through::text AS "validThrough",
    ARRAY(SELECT std.code FROM certification_standard cs JOIN standard std ON std.id = cs.standard_id
      WHERE cs.certification_id = p.certification_id AND NOT COALESCE(st.toward, '[]')
        @> jsonb_build_array(jsonb_build_object('standard', std.code)) ORDER BY cs.position) AS missing,
    CASE WHEN st.status = 'certified' AND st.awarded_on = o.day
        AND NOT EXISTS (SELECT FROM ${standingOn(Prisma.sql`o.day - 1`)} eve WHERE eve.valid_through >= o.day)
        AND NOT EXISTS (SELECT FROM carried_award ca WHERE ca.soldier_id = p.soldier_id
          AND ca.certification_id = p.certification_id AND ca.awarded_on = o.day)
      THEN (SELECT ${millis(Prisma.sql`min(ea.finished_at)`)} FROM earned_award ea WHERE ea.soldier_id = p.soldier_id
        AND ea.certification_id = p.certification_id AND ea.awarded_on = o.day
        AND ea.in_force_from <= o.day) END AS "certifiedAt",
    (SELECT COALESCE(json_agg(json_build_object('kind', a.kind, 'from', a.from_day, 'through', a.through_day)
        ORDER BY a.from_day), '[]') FROM absence a WHERE a.soldier_id = p.soldier_id
      AND daterange(a.from_day, a.through_day, '[]') && daterange(o.first_day, o.last_day, '[]')) AS absences,
    ${duties(scope)}
  FROM pairs p JOIN occasion o ON o.id = p.ceremony_id JOIN soldier s ON s.id = p.soldier_id
  JOIN certification cert ON cert.id = p.certification_id
  LEFT JOIN soldier_period period ON period.soldier_id = p.soldier_id
    AND daterange(period.from_day, period.through_day, '[]') @> o.day
  LEFT JOIN LATERAL ${standingOn(Prisma.sql`o.day`)} st ON true`

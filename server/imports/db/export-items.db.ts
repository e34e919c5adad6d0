import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'

type Item = Readonly<Record<string, unknown>>

/** The roster as it was entered, change by change; the first of each soldier has the names. */
export const rosterItems = (tx: Transaction): Promise<Item[]> => tx.$queryRaw<Item[]>`
  WITH RECURSIVE path AS (
    SELECT id, name FROM unit WHERE parent_id IS NULL
    UNION ALL SELECT u.id, path.name || ' / ' || u.name FROM unit u JOIN path ON path.id = u.parent_id)
  SELECT s.roster_number AS "rosterNumber", s.family_name AS "familyName", s.given_name AS "givenName", c.grade, c.arms,
    path.name AS unit, c.from_day::text AS "from", c."left"
  FROM soldier s JOIN soldier_change c ON c.soldier_id = s.id LEFT JOIN path ON path.id = c.unit_id
  ORDER BY s.roster_number, c.from_day, c.id`

export const awardItems = (tx: Transaction): Promise<Item[]> => tx.$queryRaw<Item[]>`
  SELECT s.roster_number AS "rosterNumber", c.code AS certification, a.awarded_on::text AS "awardedOn",
    a.valid_through::text AS "validThrough", a.evidence
  FROM carried_award a JOIN soldier s ON s.id = a.soldier_id JOIN certification c ON c.id = a.certification_id
  ORDER BY a.entry`

export const sponsorshipItems = (tx: Transaction): Promise<Item[]> => tx.$queryRaw<Item[]>`
  SELECT c.roster_number AS candidate, s.roster_number AS sponsor, x.from_day::text AS "from", x.to_day::text AS "to"
  FROM sponsorship x JOIN soldier c ON c.id = x.candidate_id JOIN soldier s ON s.id = x.sponsor_id
  ORDER BY c.roster_number, x.from_day, s.roster_number`

export const appointmentItems = (tx: Transaction): Promise<Item[]> => tx.$queryRaw<Item[]>`
  SELECT s.roster_number AS "rosterNumber", a.standard, a.from_day::text AS "from", a.to_day::text AS "to"
  FROM appointment a JOIN soldier s ON s.id = a.soldier_id ORDER BY s.roster_number, a.from_day, a.standard`

/** Sheets in the revision in force, with the roster numbers of those on them. */
export const sheetBodies = (
  tx: Transaction,
): Promise<{ id: string; body: SheetBody; numbers: Record<string, string> }[]> => tx.$queryRaw`
  SELECT s.id::text, r.body, (SELECT json_object_agg(p.id, p.roster_number) FROM soldier p
    WHERE p.id IN (s.candidate_id, s.grader_id, s.sponsor_id) OR p.id IN (
      SELECT (a ->> 'soldierId')::uuid FROM jsonb_array_elements(r.body -> 'acknowledged') a)) AS numbers
  FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision
  ORDER BY s.finished_at, s.id`

export const ceremonyItems = (tx: Transaction): Promise<Item[]> => tx.$queryRaw<Item[]>`
  WITH RECURSIVE path AS (
    SELECT id, name FROM unit WHERE parent_id IS NULL
    UNION ALL SELECT u.id, path.name || ' / ' || u.name FROM unit u JOIN path ON path.id = u.parent_id)
  SELECT c.title, c.place, path.name AS unit,
    to_char(c.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
    to_char(c.ends_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "endsAt",
    (SELECT json_agg(json_build_object('title', p.title, 'row', p.row, 'place', p.place, 'certification', cert.code,
      'arm', p.arm, 'grades', p.grades, 'rosterNumber', s.roster_number) ORDER BY p.row, p.place)
      FROM post p JOIN certification cert ON cert.id = p.certification_id LEFT JOIN soldier s ON s.id = p.soldier_id
      WHERE p.ceremony_id = c.id) AS posts
  FROM ceremony c JOIN path ON path.id = c.unit_id ORDER BY c.starts_at, c.title`

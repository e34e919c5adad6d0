import type { PreparedSheet } from '../prepared-sheet.ts'
import { tallyKeys } from './tally-keys.ts'

/**
 * The sheet as it stands, its first revision, what of the candidate's spans it changes, and the tallies it is the first
 * to be counted in. Spans go and come as two short JSON lists; one that begins on the same day is changed in place.
 */
export const sheetStatement = `
WITH sheet AS (
  INSERT INTO sheet (id, candidate_id, sponsor_id, grader_id, standard_id, standard_version_id, purpose, arm, second_of,
    test_day_id, started_at, finished_at, day, ending, outcome, conditions_met, void_after_failure, received_at, revised_at,
    revision, state, violations, waived, tolerated, is_overlapping, attempts, tallied_kind, tallied_unit_id)
  VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, now(), now(), 1, $18, $19, '{}', $20,
    $21, $22, $23, $24)),
revision AS (
  INSERT INTO sheet_revision (sheet_id, number, at, by_id, body, score) VALUES ($1, 1, now(), $25, $26, $27)),
gone_standings AS (
  DELETE FROM standing USING json_to_recordset($28) AS x(certification_id uuid, from_day date)
  WHERE standing.soldier_id = $2 AND standing.certification_id = x.certification_id AND standing.from_day = x.from_day),
standings AS (
  INSERT INTO standing (soldier_id, certification_id, from_day, through_day, status, awarded_on, valid_through, suspended,
    toward, retest_open)
  SELECT $2, x.* FROM json_to_recordset($29) AS x(certification_id uuid, from_day date, through_day date, status text,
    awarded_on date, valid_through date, suspended boolean, toward jsonb, retest_open text[])
  ON CONFLICT (soldier_id, certification_id, from_day) DO UPDATE SET through_day = excluded.through_day,
    status = excluded.status, awarded_on = excluded.awarded_on, valid_through = excluded.valid_through,
    suspended = excluded.suspended, toward = excluded.toward, retest_open = excluded.retest_open),
gone_retests AS (
  DELETE FROM retest_span r USING json_to_recordset($30) AS x(certification_id uuid, standard text, from_day date)
  WHERE r.soldier_id = $2 AND r.certification_id = x.certification_id AND r.standard = x.standard AND r.from_day = x.from_day),
retests AS (
  INSERT INTO retest_span (soldier_id, certification_id, standard, from_day, through_day, attempt, on_day, earliest, due,
    no_gos_in_a_row, needs_review)
  SELECT $2, x.* FROM json_to_recordset($31) AS x(certification_id uuid, standard text, from_day date, through_day date,
    attempt int, on_day date, earliest date, due date, no_gos_in_a_row int, needs_review boolean)
  ON CONFLICT (soldier_id, certification_id, standard, from_day) DO UPDATE SET through_day = excluded.through_day,
    attempt = excluded.attempt, on_day = excluded.on_day, earliest = excluded.earliest, due = excluded.due,
    no_gos_in_a_row = excluded.no_gos_in_a_row, needs_review = excluded.needs_review),
awards AS (
  INSERT INTO earned_award (soldier_id, certification_id, sheet_id, awarded_on, valid_through, finished_at)
  SELECT $2, x.* FROM json_to_recordset($32) AS x(certification_id uuid, sheet_id uuid, awarded_on date,
    valid_through date, finished_at timestamptz))
INSERT INTO tally (unit_id, standard_id, grain, start, arm, kind)
SELECT above.unit_id, $5, span.grain, span.start, $33, $23
FROM unit u CROSS JOIN LATERAL unnest(u.lineage) AS above(unit_id) CROSS JOIN unnest($34::text[], $35::date[]) AS span(grain, start)
WHERE u.id = $24 ORDER BY 1, 3, 4
ON CONFLICT DO NOTHING`

/** In: the prepared sheet, and the account that enters it. Awards never go by a later sheet. */
export function sheetValues({ sheet, assessment, ...changes }: PreparedSheet, byId: string): unknown[] {
  const { id, fields, body, score } = sheet
  const isTallied = assessment.kind !== null
  const keys = tallyKeys(fields.day)
  return [
    id,
    fields.candidateId,
    fields.sponsorId,
    fields.graderId,
    fields.standardId,
    fields.standardVersionId,
    fields.purpose,
    fields.arm,
    fields.secondOf,
    fields.testDayId,
    fields.startedAt,
    fields.finishedAt,
    fields.day,
    fields.ending,
    fields.outcome,
    fields.conditionsMet,
    fields.voidAfterFailure,
    assessment.state,
    JSON.stringify(assessment.violations),
    assessment.tolerated,
    assessment.overlaps,
    JSON.stringify(assessment.attempts),
    assessment.kind,
    isTallied ? assessment.unitId : null,
    byId,
    JSON.stringify(body),
    JSON.stringify(score),
    JSON.stringify(changes.standings.gone),
    JSON.stringify(changes.standings.now),
    JSON.stringify(changes.retests.gone),
    JSON.stringify(changes.retests.now),
    JSON.stringify(changes.awards.now),
    fields.arm ?? '',
    keys.map(({ grain }) => grain),
    keys.map(({ start }) => start),
  ]
}

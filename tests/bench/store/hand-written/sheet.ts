import type { PreparedSheet } from '../prepared-sheet.ts'

/**
 * The sheet as it stands, its first revision, and what of the candidate's spans it changes. Spans go and come as short
 * JSON lists; one that begins on the same day is changed in place.
 */
export const sheetStatement = `
WITH sheet AS (
  INSERT INTO sheet (id, candidate_id, sponsor_id, grader_id, standard_id, standard_version_id, purpose, arm, second_of,
    test_day_id, started_at, finished_at, day, ending, outcome, marks, conditions_met, void_after_failure, received_at,
    revised_at, revision, state, violations, waived, tolerated, is_overlapping, attempts, tallied_kind, tallied_unit_id)
  VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, now(), now(), 1, $19, $20, '{}',
    $21, $22, $23, $24, $25)),
revision AS (
  INSERT INTO sheet_revision (sheet_id, number, at, by_id, tolerated_before, body, score)
  VALUES ($1, 1, now(), $26, '{}', $27, $28)),
gone_standings AS (
  DELETE FROM standing USING json_to_recordset($29) AS x(certification_id uuid, from_day date)
  WHERE standing.soldier_id = $2 AND standing.certification_id = x.certification_id AND standing.from_day = x.from_day),
standings AS (
  INSERT INTO standing (soldier_id, certification_id, from_day, through_day, status, awarded_on, valid_through, suspended,
    toward, retest_open)
  SELECT $2, x.* FROM json_to_recordset($30) AS x(certification_id uuid, from_day date, through_day date, status text,
    awarded_on date, valid_through date, suspended boolean, toward jsonb, retest_open text[])
  ON CONFLICT (soldier_id, certification_id, from_day) DO UPDATE SET through_day = excluded.through_day,
    status = excluded.status, awarded_on = excluded.awarded_on, valid_through = excluded.valid_through,
    suspended = excluded.suspended, toward = excluded.toward, retest_open = excluded.retest_open),
gone_retests AS (
  DELETE FROM retest_span r USING json_to_recordset($31) AS x(certification_id uuid, standard text, from_day date)
  WHERE r.soldier_id = $2 AND r.certification_id = x.certification_id AND r.standard = x.standard AND r.from_day = x.from_day),
retests AS (
  INSERT INTO retest_span (soldier_id, certification_id, standard, from_day, through_day, attempt, on_day, earliest, due,
    no_gos_in_a_row, needs_review)
  SELECT $2, x.* FROM json_to_recordset($32) AS x(certification_id uuid, standard text, from_day date, through_day date,
    attempt int, on_day date, earliest date, due date, no_gos_in_a_row int, needs_review boolean)
  ON CONFLICT (soldier_id, certification_id, standard, from_day) DO UPDATE SET through_day = excluded.through_day,
    attempt = excluded.attempt, on_day = excluded.on_day, earliest = excluded.earliest, due = excluded.due,
    no_gos_in_a_row = excluded.no_gos_in_a_row, needs_review = excluded.needs_review)
INSERT INTO earned_award (soldier_id, certification_id, sheet_id, awarded_on, valid_through, finished_at)
SELECT $2, x.* FROM json_to_recordset($33) AS x(certification_id uuid, sheet_id uuid, awarded_on date,
  valid_through date, finished_at timestamptz)`

/** In: the prepared sheet, and the account that enters it. Awards never go by a later sheet. */
export function sheetValues({ sheet, assessment, ...changes }: PreparedSheet, byId: string): unknown[] {
  const { id, fields, body, score } = sheet
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
    fields.marks,
    fields.conditionsMet,
    fields.voidAfterFailure,
    assessment.state,
    JSON.stringify(assessment.violations),
    assessment.tolerated,
    assessment.overlaps,
    JSON.stringify(assessment.attempts),
    assessment.kind,
    assessment.kind === null ? null : assessment.unitId,
    byId,
    JSON.stringify(body),
    JSON.stringify(score),
    JSON.stringify(changes.standings.gone),
    JSON.stringify(changes.standings.now),
    JSON.stringify(changes.retests.gone),
    JSON.stringify(changes.retests.now),
    JSON.stringify(changes.awards.now),
  ]
}

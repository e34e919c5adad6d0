import type { CertificationAssessment, EarnedAward, SheetAssessment } from '../domain/assessment/types.ts'
import type { Transaction } from './client.ts'

/** Stores how sheets stand now. `tallied`: what of each is in the tallies, and in which unit. */
export async function saveSheetAssessments(
  tx: Transaction,
  sheets: readonly (SheetAssessment & { readonly talliedUnitId: string | null })[],
): Promise<void> {
  if (sheets.length === 0) return
  await tx.$executeRaw`
    UPDATE sheet SET state = now.state, violations = now.violations, is_overlapping = now."overlaps", attempts = now.attempts,
      tolerated = ARRAY(SELECT jsonb_array_elements_text(now.tolerated)),
      tallied_kind = now.kind, tallied_unit_id = now."talliedUnitId"
    FROM jsonb_to_recordset(${JSON.stringify(sheets)}::jsonb) AS now(id uuid, state text, violations jsonb,
      "overlaps" boolean, attempts jsonb, tolerated jsonb, kind text, "talliedUnitId" uuid)
    WHERE sheet.id = now.id`
}

/** Replaces what is stored of a soldier's standing in some certifications. */
export async function saveStandings(
  tx: Transaction,
  soldierId: string,
  standings: readonly (CertificationAssessment & { readonly certificationId: string })[],
): Promise<void> {
  if (standings.length === 0) return
  const ids = standings.map(({ certificationId }) => certificationId)
  const statuses = standings.flatMap(({ certificationId, statuses: spans }) =>
    spans.map(({ from, through, value }) => ({ certificationId, from, through, ...value })),
  )
  const retests = standings.flatMap(({ certificationId, retests: spans }) =>
    spans.map(({ from, through, value }) => ({ certificationId, from, through, ...value })),
  )
  const earned = standings.flatMap(({ certificationId, earned: awards }) =>
    awards.map((award: EarnedAward) => ({ certificationId, ...award })),
  )
  await tx.$executeRaw`
    WITH statuses AS (
      DELETE FROM standing WHERE soldier_id = ${soldierId}::uuid AND certification_id = ANY(${ids}::uuid[])),
    retests AS (
      DELETE FROM retest_span WHERE soldier_id = ${soldierId}::uuid AND certification_id = ANY(${ids}::uuid[]))
    DELETE FROM earned_award WHERE soldier_id = ${soldierId}::uuid AND certification_id = ANY(${ids}::uuid[])`
  await tx.$executeRaw`
    WITH statuses AS (
      INSERT INTO standing (soldier_id, certification_id, from_day, through_day, status, awarded_on, valid_through,
        suspended, toward, retest_open)
      SELECT ${soldierId}::uuid, "certificationId", "from", through, status, "awardedOn", "validThrough", suspended,
        toward, ARRAY(SELECT jsonb_array_elements_text("retestOpen"))
      FROM jsonb_to_recordset(${JSON.stringify(statuses)}::jsonb) AS x("certificationId" uuid, "from" date,
        through date, status text, "awardedOn" date, "validThrough" date, suspended boolean, toward jsonb,
        "retestOpen" jsonb)),
    retests AS (
      INSERT INTO retest_span (soldier_id, certification_id, standard, from_day, through_day, attempt, on_day, earliest,
        due, no_gos_in_a_row, needs_review)
      SELECT ${soldierId}::uuid, "certificationId", standard, "from", through, attempt, "on", earliest, due,
        "noGosInARow", "needsReview"
      FROM jsonb_to_recordset(${JSON.stringify(retests)}::jsonb) AS x("certificationId" uuid, standard text,
        "from" date, through date, attempt int, "on" date, earliest date, due date, "noGosInARow" int,
        "needsReview" boolean))
    INSERT INTO earned_award (soldier_id, certification_id, sheet_id, awarded_on, valid_through, finished_at)
    SELECT ${soldierId}::uuid, "certificationId", "sheetId", "awardedOn", "validThrough",
      to_timestamp("finishedAt" / 1000.0)
    FROM jsonb_to_recordset(${JSON.stringify(earned)}::jsonb) AS x("certificationId" uuid, "sheetId" uuid,
      "awardedOn" date, "validThrough" date, "finishedAt" bigint)`
}

/**
 * Candidates whose sheets this person graded or sponsored on or after a day, so that they hang on the person's status; the
 * person too, where somebody graded or sponsored their own test.
 */
export async function findDependents(tx: Transaction, personId: string, fromDay: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT DISTINCT candidate_id::text AS id FROM sheet
    WHERE (grader_id = ${personId}::uuid OR sponsor_id = ${personId}::uuid) AND day >= ${fromDay}::date
      AND purpose = 'test' ORDER BY 1`
  return rows.map(({ id }) => id)
}

import type { Transaction } from '../../db/client.ts'
import type { CertificationAssessment, EarnedAward, SheetAssessment } from '../../domain/assessment/types.ts'

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

/** How a soldier stands in a certification, as it is to be stored. */
export type NewStanding = CertificationAssessment & { readonly soldierId: string; readonly certificationId: string }

/** Replaces what is stored of soldiers' standing in some certifications. */
export async function saveStandings(tx: Transaction, standings: readonly NewStanding[]): Promise<void> {
  if (standings.length === 0) return
  const soldiers = standings.map(({ soldierId }) => soldierId)
  const certifications = standings.map(({ certificationId }) => certificationId)
  const statuses = standings.flatMap(({ soldierId, certificationId, statuses: spans }) =>
    spans.map(({ from, through, value }) => ({ soldierId, certificationId, from, through, ...value })),
  )
  const retests = standings.flatMap(({ soldierId, certificationId, retests: spans }) =>
    spans.map(({ from, through, value }) => ({ soldierId, certificationId, from, through, ...value })),
  )
  const earned = standings.flatMap(({ soldierId, certificationId, earned: awards }) =>
    awards.map((award: EarnedAward) => ({ soldierId, certificationId, ...award })),
  )
  await tx.$executeRaw`
    WITH old AS MATERIALIZED (
      SELECT * FROM unnest(${soldiers}::uuid[], ${certifications}::uuid[]) AS x(soldier_id, certification_id)),
    statuses AS (
      DELETE FROM standing s USING old
      WHERE s.soldier_id = old.soldier_id AND s.certification_id = old.certification_id),
    retests AS (
      DELETE FROM retest_span r USING old
      WHERE r.soldier_id = old.soldier_id AND r.certification_id = old.certification_id)
    DELETE FROM earned_award e USING old
    WHERE e.soldier_id = old.soldier_id AND e.certification_id = old.certification_id`
  await tx.$executeRaw`
    WITH statuses AS (
      INSERT INTO standing (soldier_id, certification_id, from_day, through_day, status, awarded_on, valid_through,
        suspended, toward, retest_open)
      SELECT "soldierId", "certificationId", "from", through, status, "awardedOn", "validThrough", suspended,
        toward, ARRAY(SELECT jsonb_array_elements_text("retestOpen"))
      FROM jsonb_to_recordset(${JSON.stringify(statuses)}::jsonb) AS x("soldierId" uuid, "certificationId" uuid,
        "from" date, through date, status text, "awardedOn" date, "validThrough" date, suspended boolean,
        toward jsonb, "retestOpen" jsonb)),
    retests AS (
      INSERT INTO retest_span (soldier_id, certification_id, standard, from_day, through_day, attempt, on_day, earliest,
        due, no_gos_in_a_row, needs_review)
      SELECT "soldierId", "certificationId", standard, "from", through, attempt, "on", earliest, due,
        "noGosInARow", "needsReview"
      FROM jsonb_to_recordset(${JSON.stringify(retests)}::jsonb) AS x("soldierId" uuid, "certificationId" uuid,
        standard text, "from" date, through date, attempt int, "on" date, earliest date, due date,
        "noGosInARow" int, "needsReview" boolean))
    INSERT INTO earned_award (soldier_id, certification_id, sheet_id, awarded_on, valid_through, finished_at)
    SELECT "soldierId", "certificationId", "sheetId", "awardedOn", "validThrough",
      to_timestamp("finishedAt" / 1000.0)
    FROM jsonb_to_recordset(${JSON.stringify(earned)}::jsonb) AS x("soldierId" uuid, "certificationId" uuid,
      "sheetId" uuid, "awardedOn" date, "validThrough" date, "finishedAt" bigint)`
}

/**
 * Candidates whose sheets these people graded or sponsored on or after their day, so that they hang on their status; the
 * people too, where somebody graded or sponsored their own test.
 */
export async function findDependents(
  tx: Transaction,
  people: readonly { readonly id: string; readonly fromDay: string }[],
): Promise<string[]> {
  if (people.length === 0) return []
  const rows = await tx.$queryRaw<{ id: string }[]>`
    WITH person AS (
      SELECT * FROM unnest(${people.map(({ id }) => id)}::uuid[], ${people.map(({ fromDay }) => fromDay)}::date[])
        AS x(id, from_day))
    SELECT s.candidate_id::text AS id FROM person JOIN sheet s ON s.grader_id = person.id
    WHERE s.day >= person.from_day AND s.purpose = 'test'
    UNION
    SELECT s.candidate_id::text FROM person JOIN sheet s ON s.sponsor_id = person.id
    WHERE s.day >= person.from_day AND s.purpose = 'test'
    ORDER BY 1`
  return rows.map(({ id }) => id)
}

/** A decision about a held sheet; without `byId` the sheet counted by itself. */
export interface DecisionRow {
  readonly sheetId: string
  readonly revision: number
  readonly decision: 'count' | 'reject'
  readonly reason: string
  readonly waived: readonly string[]
  readonly at: Date
  readonly byId: string | null
}

export async function insertDecisions(tx: Transaction, decisions: readonly DecisionRow[]): Promise<void> {
  if (decisions.length === 0) return
  await tx.sheetDecision.createMany({ data: decisions.map((one) => ({ ...one, waived: [...one.waived] })) })
}

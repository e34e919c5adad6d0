import { type Revision, SHEET_FIELDS, type SheetFields } from '../../assessment/db/new-sheets.db.ts'
import type { Transaction } from '../../db/client.ts'

/**
 * Stores a further revision of a sheet, which is in force from now on and out of the tallies until settled. `tolerated`:
 * the rules that its content may break without being held.
 */
export async function reviseSheet(
  tx: Transaction,
  fields: SheetFields,
  revision: Revision,
  tolerated: readonly string[],
): Promise<void> {
  const { number, at, byId, reason, body, score } = revision
  await tx.$executeRaw`
    WITH revised AS (
      UPDATE sheet SET sponsor_id = x."sponsorId", grader_id = x."graderId",
        standard_version_id = x."standardVersionId", purpose = x.purpose, arm = x.arm, second_of = x."secondOf",
        test_day_id = x."testDayId", started_at = x."startedAt", finished_at = x."finishedAt", day = x.day,
        ending = x.ending, outcome = x.outcome, marks = x.marks, conditions_met = x."conditionsMet",
        void_after_failure = x."voidAfterFailure", state = x.state, revised_at = ${at}::timestamptz, revision = ${number}::int,
        tolerated = ${[...tolerated]}::text[], tallied_kind = NULL, tallied_unit_id = NULL
      FROM jsonb_to_record(${JSON.stringify(fields)}::jsonb) AS x(${SHEET_FIELDS}) WHERE sheet.id = x.id)
    INSERT INTO sheet_revision (sheet_id, number, at, by_id, reason, tolerated_before, body, score)
    SELECT id, ${number}::int, ${at}::timestamptz, ${byId}::uuid, ${reason}::text, tolerated, ${JSON.stringify(body)}::jsonb,
      ${JSON.stringify(score)}::jsonb FROM sheet WHERE id = ${fields.id}::uuid`
}

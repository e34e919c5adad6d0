import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import type { SheetScore } from '../../domain/scoring/types.ts'

/** What a new sheet finds when its transaction begins: locked people, the first body under its id, the zone of its day. */
export interface SheetOpening {
  readonly people: readonly string[]
  readonly testDayExists: boolean
  readonly firstBody: SheetBody | null
  readonly timeZone: string | null
}

/**
 * Locks the candidate against other judgements and the other people against changes, in order of their ids so that those
 * who grade each other do not wait for each other for ever, and reads what a new sheet needs.
 * In: the sheet's id, the candidate, all others on the sheet, the UTC day its zone is asked for.
 */
export async function openSheet(
  tx: Transaction,
  sheet: { id: string; candidateId: string; otherIds: readonly string[]; testDayId: string | null; utcDay: string },
): Promise<SheetOpening> {
  const [row] = await tx.$queryRaw<[SheetOpening]>`
    WITH before AS (
      SELECT id FROM soldier WHERE id = ANY(${[...sheet.otherIds]}::uuid[]) AND id < ${sheet.candidateId}::uuid
      ORDER BY id FOR SHARE),
    candidate AS (SELECT id FROM soldier WHERE id = ${sheet.candidateId}::uuid FOR NO KEY UPDATE),
    after AS (
      SELECT id FROM soldier WHERE id = ANY(${[...sheet.otherIds]}::uuid[]) AND id > ${sheet.candidateId}::uuid
      ORDER BY id FOR SHARE)
    SELECT ARRAY(SELECT id::text FROM before UNION ALL SELECT id::text FROM candidate UNION ALL SELECT id::text FROM after)
        AS people,
      ${sheet.testDayId}::uuid IS NULL OR EXISTS (SELECT FROM test_day WHERE id = ${sheet.testDayId}::uuid)
        AS "testDayExists",
      (SELECT body FROM sheet_revision WHERE sheet_id = ${sheet.id}::uuid AND number = 1) AS "firstBody",
      (SELECT (SELECT above.time_zone FROM unnest(u.lineage) WITH ORDINALITY AS line(id, height)
          JOIN unit above ON above.id = line.id WHERE above.time_zone IS NOT NULL ORDER BY height LIMIT 1)
        FROM soldier_period p JOIN unit u ON u.id = p.unit_id WHERE p.soldier_id = ${sheet.candidateId}::uuid
        ORDER BY daterange(p.from_day, p.through_day, '[]') @> ${sheet.utcDay}::date DESC,
          p.from_day > ${sheet.utcDay}::date DESC, abs(p.from_day - ${sheet.utcDay}::date) LIMIT 1) AS "timeZone"`
  return row
}

/** The columns of a sheet that follow from a revision. */
export interface SheetFields {
  readonly id: string
  readonly candidateId: string
  readonly sponsorId: string | null
  readonly graderId: string
  readonly standardId: string
  readonly standardVersionId: string
  readonly purpose: 'test' | 'practice'
  readonly arm: string | null
  readonly secondOf: string | null
  readonly testDayId: string | null
  readonly startedAt: string
  readonly finishedAt: string
  readonly day: string
  readonly ending: string
  readonly outcome: string
  /** Outcomes of the measures, see `markPattern`. */
  readonly marks: string
  readonly conditionsMet: boolean
  readonly voidAfterFailure: boolean
  readonly state: 'counted' | 'held' | 'rejected'
  readonly clockSkewMs: number | null
}

export interface Revision {
  readonly number: number
  readonly at: Date
  readonly byId: string | null
  readonly reason: string | null
  readonly body: SheetBody
  readonly score: SheetScore
}

const FIELDS = `id uuid, "candidateId" uuid, "sponsorId" uuid, "graderId" uuid, "standardId" uuid,
  "standardVersionId" uuid, purpose text, arm text, "secondOf" uuid, "testDayId" uuid, "startedAt" timestamptz,
  "finishedAt" timestamptz, day date, ending text, outcome text, marks text, "conditionsMet" boolean,
  "voidAfterFailure" boolean, state text, "clockSkewMs" bigint`

/** Stores a new sheet with its first revision; how it stands is settled right after. */
export async function insertSheet(tx: Transaction, fields: SheetFields, revision: Revision): Promise<void> {
  await tx.$executeRawUnsafe(
    `WITH sheet AS (
      INSERT INTO sheet (id, candidate_id, sponsor_id, grader_id, standard_id, standard_version_id, purpose, arm,
        second_of, test_day_id, started_at, finished_at, day, ending, outcome, marks, conditions_met,
        void_after_failure, state, clock_skew_ms, received_at, revised_at, revision, violations, waived, tolerated,
        is_overlapping, attempts)
      SELECT x.*, $2::timestamptz, $2::timestamptz, 1, '[]', '{}', '{}', false, '[]'
      FROM jsonb_to_record($1::jsonb) AS x(${FIELDS}))
    INSERT INTO sheet_revision (sheet_id, number, at, by_id, reason, tolerated_before, body, score)
    VALUES ($3::uuid, 1, $2::timestamptz, $4::uuid, NULL, '{}', $5::jsonb, $6::jsonb)`,
    JSON.stringify(fields),
    revision.at.toISOString(),
    fields.id,
    revision.byId,
    JSON.stringify(revision.body),
    JSON.stringify(revision.score),
  )
}

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
  await tx.$executeRawUnsafe(
    `WITH revised AS (
      UPDATE sheet SET sponsor_id = x."sponsorId", grader_id = x."graderId",
        standard_version_id = x."standardVersionId", purpose = x.purpose, arm = x.arm, second_of = x."secondOf",
        test_day_id = x."testDayId", started_at = x."startedAt", finished_at = x."finishedAt", day = x.day,
        ending = x.ending, outcome = x.outcome, marks = x.marks, conditions_met = x."conditionsMet",
        void_after_failure = x."voidAfterFailure", state = x.state, revised_at = $2::timestamptz, revision = $7::int,
        tolerated = ARRAY(SELECT jsonb_array_elements_text($9::jsonb)), tallied_kind = NULL, tallied_unit_id = NULL
      FROM jsonb_to_record($1::jsonb) AS x(${FIELDS}) WHERE sheet.id = x.id)
    INSERT INTO sheet_revision (sheet_id, number, at, by_id, reason, tolerated_before, body, score)
    SELECT $3::uuid, $7::int, $2::timestamptz, $4::uuid, $8, tolerated, $5::jsonb, $6::jsonb FROM sheet WHERE id = $3::uuid`,
    JSON.stringify(fields),
    revision.at.toISOString(),
    fields.id,
    revision.byId,
    JSON.stringify(revision.body),
    JSON.stringify(revision.score),
    revision.number,
    revision.reason,
    JSON.stringify(tolerated),
  )
}

/** What the tallies count of a sheet. */

import { isDeepStrictEqual } from 'node:util'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { CertificationAssessment, EarnedAward } from '../../domain/assessment/types.ts'
import { insertingSheet, type NewSheet, type NewSheetState } from './new-sheets.db.ts'

/** How a soldier stood in a certification as stored, and how they stand now. */
export interface StandingChange {
  readonly soldierId: string
  readonly certificationId: string
  readonly before: CertificationAssessment
  readonly after: CertificationAssessment
}

/**
 * Stores how sheets and soldiers stand now, in one statement, and with them a sheet that has just arrived. Of how soldiers
 * stood only what is otherwise now is touched, so that it costs no more after many tests than after the first.
 */
export async function saveJudgement(
  tx: Transaction,
  sheets: readonly NewSheetState[],
  standings: readonly StandingChange[],
  arrived?: { readonly sheet: NewSheet; readonly judged: NewSheetState } | null,
): Promise<void> {
  const { gone, come } = differenceOf(standings)
  if (sheets.length + gone.length + come.length === 0 && !arrived) return
  const rows = (kind: StandingRow['kind']) => JSON.stringify(come.filter((row) => row.kind === kind))
  await tx.$executeRaw`
    WITH ${arrived ? insertingSheet(arrived.sheet, arrived.judged) : Prisma.empty}
    gone AS MATERIALIZED (
      SELECT * FROM jsonb_to_recordset(${JSON.stringify(gone.map(toKey))}::jsonb) AS x(
        kind text, "soldierId" uuid, "certificationId" uuid, "from" date, standard text, "sheetId" uuid)),
    gone_statuses AS (
      DELETE FROM standing s USING gone x WHERE x.kind = 'status' AND s.soldier_id = x."soldierId"
        AND s.certification_id = x."certificationId" AND s.from_day = x."from"),
    gone_retests AS (
      DELETE FROM retest_span r USING gone x WHERE x.kind = 'retest' AND r.soldier_id = x."soldierId"
        AND r.certification_id = x."certificationId" AND r.standard = x.standard AND r.from_day = x."from"),
    gone_awards AS (
      DELETE FROM earned_award e USING gone x WHERE x.kind = 'award' AND e.soldier_id = x."soldierId"
        AND e.certification_id = x."certificationId" AND e.sheet_id = x."sheetId"),
    statuses AS (
      INSERT INTO standing (soldier_id, certification_id, from_day, through_day, status, awarded_on, valid_through,
        suspended, toward, retest_open)
      SELECT "soldierId", "certificationId", "from", through, status, "awardedOn", "validThrough", suspended,
        toward, ARRAY(SELECT jsonb_array_elements_text("retestOpen"))
      FROM jsonb_to_recordset(${rows('status')}::jsonb) AS x("soldierId" uuid, "certificationId" uuid,
        "from" date, through date, status text, "awardedOn" date, "validThrough" date, suspended boolean,
        toward jsonb, "retestOpen" jsonb)
      ON CONFLICT (soldier_id, certification_id, from_day) DO UPDATE SET through_day = excluded.through_day,
        status = excluded.status, awarded_on = excluded.awarded_on, valid_through = excluded.valid_through,
        suspended = excluded.suspended, toward = excluded.toward, retest_open = excluded.retest_open),
    retests AS (
      INSERT INTO retest_span (soldier_id, certification_id, standard, from_day, through_day, attempt, on_day, earliest,
        due, no_gos_in_a_row, needs_review)
      SELECT "soldierId", "certificationId", standard, "from", through, attempt, "on", earliest, due,
        "noGosInARow", "needsReview"
      FROM jsonb_to_recordset(${rows('retest')}::jsonb) AS x("soldierId" uuid, "certificationId" uuid,
        standard text, "from" date, through date, attempt int, "on" date, earliest date, due date,
        "noGosInARow" int, "needsReview" boolean)
      ON CONFLICT (soldier_id, certification_id, standard, from_day) DO UPDATE SET through_day = excluded.through_day,
        attempt = excluded.attempt, on_day = excluded.on_day, earliest = excluded.earliest, due = excluded.due,
        no_gos_in_a_row = excluded.no_gos_in_a_row, needs_review = excluded.needs_review),
    awards AS (
      INSERT INTO earned_award (soldier_id, certification_id, sheet_id, awarded_on, valid_through, in_force_from, finished_at)
      SELECT "soldierId", "certificationId", "sheetId", "awardedOn", "validThrough", "inForceFrom",
        to_timestamp("finishedAt" / 1000.0)
      FROM jsonb_to_recordset(${rows('award')}::jsonb) AS x("soldierId" uuid, "certificationId" uuid,
        "sheetId" uuid, "awardedOn" date, "validThrough" date, "inForceFrom" date, "finishedAt" bigint)
      ON CONFLICT (soldier_id, certification_id, sheet_id) DO UPDATE SET awarded_on = excluded.awarded_on,
        valid_through = excluded.valid_through, in_force_from = excluded.in_force_from, finished_at = excluded.finished_at)
    UPDATE sheet SET state = now.state, violations = now.violations, is_overlapping = now."overlaps",
      attempts = now.attempts, tolerated = ARRAY(SELECT jsonb_array_elements_text(now.tolerated)),
      tallied_kind = now.kind, tallied_unit_id = now."talliedUnitId"
    FROM jsonb_to_recordset(${JSON.stringify(sheets)}::jsonb) AS now(id uuid, state text, violations jsonb,
      "overlaps" boolean, attempts jsonb, tolerated jsonb, kind text, "talliedUnitId" uuid)
    WHERE sheet.id = now.id`
}

/** A row of what is stored of how somebody stands, with what tells it from others of its kind. */
interface StandingRow {
  readonly kind: 'status' | 'retest' | 'award'
  readonly soldierId: string
  readonly certificationId: string
  readonly from?: string | undefined
  readonly standard?: string | undefined
  readonly sheetId?: string | undefined
}

const toKey = ({ kind, soldierId, certificationId, from, standard, sheetId }: StandingRow): StandingRow => {
  return { kind, soldierId, certificationId, from, standard, sheetId }
}

/** The rows that go, and those that are new or otherwise now. */
function differenceOf(standings: readonly StandingChange[]): { gone: StandingRow[]; come: StandingRow[] } {
  const changes = standings.map(({ before, after, ...whose }) => {
    const [had, has] = [rowsOf(whose, before), rowsOf(whose, after)]
    return {
      gone: [...had].filter(([key]) => !has.has(key)).map(([, row]) => row),
      come: [...has].filter(([key, row]) => !isDeepStrictEqual(had.get(key), row)).map(([, row]) => row),
    }
  })
  return { gone: changes.flatMap(({ gone }) => gone), come: changes.flatMap(({ come }) => come) }
}

const keyOf = ({ kind, from, standard, sheetId }: StandingRow): string => [kind, standard, from, sheetId].join(' ')

function rowsOf(
  whose: Pick<StandingRow, 'soldierId' | 'certificationId'>,
  { statuses, retests, earned }: CertificationAssessment,
): Map<string, StandingRow> {
  const rows: StandingRow[] = [
    ...statuses.map(({ from, through, value }) => ({ kind: 'status' as const, ...whose, from, through, ...value })),
    ...retests.map(({ from, through, value }) => ({ kind: 'retest' as const, ...whose, from, through, ...value })),
    ...earned.map((award: EarnedAward) => ({ kind: 'award' as const, ...whose, ...award })),
  ]
  return new Map(rows.map((row) => [keyOf(row), row]))
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

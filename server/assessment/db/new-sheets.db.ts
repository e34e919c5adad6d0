import type { SheetBody } from '../../contract/sheets/sheets.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { SheetAssessment } from '../../domain/assessment/types.ts'
import type { SheetScore } from '../../domain/scoring/types.ts'

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

/** A sheet that is not stored yet, with its first revision. */
export interface NewSheet {
  readonly fields: SheetFields
  readonly revision: Revision
}

/** How a sheet stands now. */
export type NewSheetState = SheetAssessment & { readonly talliedUnitId: string | null }

/** SQL of the columns of `SheetFields` as a record of JSON has them. */
export const SHEET_FIELDS = Prisma.raw(`id uuid, "candidateId" uuid, "sponsorId" uuid, "graderId" uuid,
  "standardId" uuid, "standardVersionId" uuid, purpose text, arm text, "secondOf" uuid, "testDayId" uuid,
  "startedAt" timestamptz, "finishedAt" timestamptz, day date, ending text, outcome text, marks text,
  "conditionsMet" boolean, "voidAfterFailure" boolean, state text, "clockSkewMs" bigint`)

/** CTEs that store a new sheet, as it was judged, with its first revision. */
export function insertingSheet({ fields, revision }: NewSheet, judged: NewSheetState): Prisma.Sql {
  const { at, byId, body, score } = revision
  const row = { ...fields, state: judged.state }
  return Prisma.sql`
    arrived AS (
      INSERT INTO sheet (id, candidate_id, sponsor_id, grader_id, standard_id, standard_version_id, purpose, arm,
        second_of, test_day_id, started_at, finished_at, day, ending, outcome, marks, conditions_met,
        void_after_failure, state, clock_skew_ms, received_at, revised_at, revision, violations, waived, tolerated,
        is_overlapping, attempts, tallied_kind, tallied_unit_id)
      SELECT x.*, ${at}::timestamptz, ${at}::timestamptz, 1, ${JSON.stringify(judged.violations)}::jsonb, '{}', ${[...judged.tolerated]}::text[],
        ${judged.overlaps}::boolean, ${JSON.stringify(judged.attempts)}::jsonb, ${judged.kind}::text, ${judged.talliedUnitId}::uuid
      FROM jsonb_to_record(${JSON.stringify(row)}::jsonb) AS x(${SHEET_FIELDS})),
    first_revision AS (
      INSERT INTO sheet_revision (sheet_id, number, at, by_id, reason, tolerated_before, body, score)
      VALUES (${fields.id}::uuid, 1, ${at}, ${byId}::uuid, NULL, '{}', ${JSON.stringify(body)}::jsonb,
        ${JSON.stringify(score)}::jsonb)),`
}

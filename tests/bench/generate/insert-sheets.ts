import type pg from 'pg'
import { insertRows } from './insert-rows.ts'
import type { JudgedCareer } from './judge-career.ts'

const SHEET = {
  id: 'uuid',
  candidate_id: 'uuid',
  sponsor_id: 'uuid',
  grader_id: 'uuid',
  standard_id: 'uuid',
  standard_version_id: 'uuid',
  purpose: 'text',
  arm: 'text',
  second_of: 'uuid',
  test_day_id: 'uuid',
  started_at: 'timestamptz',
  finished_at: 'timestamptz',
  day: 'date',
  ending: 'text',
  outcome: 'text',
  marks: 'text',
  conditions_met: 'boolean',
  void_after_failure: 'boolean',
  received_at: 'timestamptz',
  revised_at: 'timestamptz',
  revision: 'int',
  state: 'text',
  violations: 'jsonb',
  waived: 'text[]',
  tolerated: 'text[]',
  is_overlapping: 'boolean',
  attempts: 'jsonb',
  tallied_kind: 'text',
  tallied_unit_id: 'uuid',
} as const

const REVISION = {
  sheet_id: 'uuid',
  number: 'int',
  at: 'timestamptz',
  by_id: 'uuid',
  tolerated_before: 'text[]',
  body: 'jsonb',
  score: 'jsonb',
} as const

type SheetRow = Record<keyof typeof SHEET, unknown>

/** Stores judged sheets with their first revision, in one transaction. */
export async function insertSheets(client: pg.Client, careers: readonly JudgedCareer[], byId: string): Promise<void> {
  const revisions = careers.flatMap(({ sheets }) =>
    sheets.map(({ id, receivedAt, body, score }) => ({
      sheet_id: id,
      number: 1,
      at: receivedAt,
      by_id: byId,
      tolerated_before: [],
      body,
      score,
    })),
  )
  await client.query('BEGIN')
  await insertRows(client, 'sheet', SHEET, careers.flatMap(sheetRows))
  await insertRows(client, 'sheet_revision', REVISION, revisions)
  await client.query('COMMIT')
}

function sheetRows({ sheets, assessment }: JudgedCareer): SheetRow[] {
  const written = new Map(sheets.map((sheet) => [sheet.id, sheet]))
  return assessment.sheets.map((sheet) => {
    const { fields, receivedAt } = written.get(sheet.id)!
    return {
      id: sheet.id,
      candidate_id: fields.candidateId,
      sponsor_id: fields.sponsorId,
      grader_id: fields.graderId,
      standard_id: fields.standardId,
      standard_version_id: fields.standardVersionId,
      purpose: fields.purpose,
      arm: fields.arm,
      second_of: fields.secondOf,
      test_day_id: fields.testDayId,
      started_at: fields.startedAt,
      finished_at: fields.finishedAt,
      day: fields.day,
      ending: fields.ending,
      outcome: fields.outcome,
      marks: fields.marks,
      conditions_met: fields.conditionsMet,
      void_after_failure: fields.voidAfterFailure,
      received_at: receivedAt,
      revised_at: receivedAt,
      revision: 1,
      state: sheet.state,
      violations: sheet.violations,
      waived: [],
      tolerated: sheet.tolerated,
      is_overlapping: sheet.overlaps,
      attempts: sheet.attempts,
      tallied_kind: sheet.kind,
      tallied_unit_id: sheet.kind === null ? null : sheet.unitId,
    }
  })
}

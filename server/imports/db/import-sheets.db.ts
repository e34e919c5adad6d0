import { type NewSheet, SHEET_FIELDS } from '../../assessment/db/new-sheets.db.ts'
import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import type { Violation } from '../../domain/validity/rules.ts'

/** The first bodies of sheets that are stored under these ids. */
export async function firstBodies(tx: Transaction, ids: readonly string[]): Promise<Map<string, SheetBody>> {
  const rows = await tx.$queryRaw<{ id: string; body: SheetBody }[]>`
    SELECT sheet_id::text AS id, body FROM sheet_revision WHERE number = 1 AND sheet_id = ANY(${[...ids]}::uuid[])`
  return new Map(rows.map(({ id, body }) => [id, body]))
}

export async function existingTestDays(tx: Transaction, ids: readonly string[]): Promise<Set<string>> {
  const rows = await tx.testDay.findMany({ where: { id: { in: [...ids] } }, select: { id: true } })
  return new Set(rows.map(({ id }) => id))
}

/** Stores new sheets with their first revisions; how they stand is settled right after. */
export async function insertSheets(tx: Transaction, sheets: readonly NewSheet[]): Promise<void> {
  const at = sheets[0]!.revision.at.toISOString()
  const byId = sheets[0]!.revision.byId
  await tx.$executeRaw`
    INSERT INTO sheet (id, candidate_id, sponsor_id, grader_id, standard_id, standard_version_id, purpose, arm,
      second_of, test_day_id, started_at, finished_at, day, ending, outcome, marks, conditions_met,
      void_after_failure, state, clock_skew_ms, received_at, revised_at, revision, violations, waived, tolerated,
      is_overlapping, attempts)
    SELECT x.*, ${at}::timestamptz, ${at}::timestamptz, 1, '[]', '{}', '{}', false, '[]'
    FROM jsonb_to_recordset(${JSON.stringify(sheets.map(({ fields }) => fields))}::jsonb) AS x(${SHEET_FIELDS})`
  const revisions = sheets.map(({ fields, revision: { body, score } }) => ({ id: fields.id, body, score }))
  await tx.$executeRaw`
    INSERT INTO sheet_revision (sheet_id, number, at, by_id, reason, tolerated_before, body, score)
    SELECT id, 1, ${at}::timestamptz, ${byId}::uuid, NULL, '{}', body, score
    FROM jsonb_to_recordset(${JSON.stringify(revisions)}::jsonb) AS x(id uuid, body jsonb, score jsonb)`
}

/** How sheets stand now. */
export async function readStates(
  tx: Transaction,
  ids: readonly string[],
): Promise<Map<string, { state: 'counted' | 'held' | 'rejected'; violations: Violation[] }>> {
  const rows = await tx.$queryRaw<{ id: string; state: 'counted' | 'held' | 'rejected'; violations: Violation[] }[]>`
    SELECT id::text, state, violations FROM sheet WHERE id = ANY(${[...ids]}::uuid[])`
  return new Map(rows.map(({ id, ...rest }) => [id, rest]))
}

import type { Transaction } from '../../db/client.ts'

/** An entry of the record that says something a status or a retest can hang on. */
export interface KnownEntry {
  readonly at: Date
  readonly action: string
  readonly subjectId: string
  readonly after: Readonly<Record<string, unknown>>
}

/**
 * All ids under which a soldier's facts were ever entered: the own one, and by the record those of entries of the roster
 * that were merged into it, undone or not.
 */
export async function readIdsEver(tx: Transaction, soldierId: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    WITH RECURSIVE ever(id) AS (
      SELECT ${soldierId} UNION
      SELECT e.after ->> 'away' FROM ever JOIN record_entry e ON e.subject_id = ever.id AND e.action = 'soldier.merged'
      WHERE e.after ->> 'away' IS NOT NULL)
    SELECT id FROM ever`
  return rows.map(({ id }) => id)
}

const ACTIONS = [
  ...['sheet.submitted', 'sheet.amended', 'sheet.decided', 'sheet.counted-by-itself'],
  ...['award.carried-over', 'withdrawal.added', 'suspension.began', 'suspension.lifted', 'review.added'],
  ...['award.approved', 'award.refused', 'award.extended', 'award.decision-taken-back', 'award.extension-taken-back'],
  ...['retest.due-moved', 'soldier.merged', 'soldier.merge-undone'],
  ...['certification.created', 'certification.terms-changed'],
]

/** What the record says of these subjects (soldiers, sheets) and of certifications, in its order. */
export async function readKnownEntries(tx: Transaction, subjects: readonly string[]): Promise<KnownEntry[]> {
  return tx.$queryRaw<KnownEntry[]>`
    SELECT at, action, subject_id AS "subjectId", after FROM record_entry
    WHERE action = ANY(${ACTIONS}) AND after IS NOT NULL AND subject_id = ANY(ARRAY(SELECT unnest(${[...subjects]}::text[])
      UNION SELECT id::text FROM certification))
    ORDER BY seq`
}

/** A revision of a test's or practice's sheet, as far as standing hangs on it. */
export interface KnownRevision {
  readonly sheetId: string
  /** Whose sheet it was before merges that hold. */
  readonly owner: string
  readonly number: number
  readonly at: Date
  readonly standard: string
  readonly version: number
  readonly arm: string | null
  readonly finishedAt: string
  readonly purpose: 'test' | 'practice'
  readonly isSecond: boolean
  readonly outcome: 'GO' | 'NO-GO' | 'VOID'
  /** Of the sheet as it stands now: its day, and when it finished. */
  readonly lastDay: string
  readonly lastFinishedAt: string
  readonly lastState: 'counted' | 'held' | 'rejected'
}

/** Every revision of every sheet of these soldiers. */
export async function readKnownRevisions(tx: Transaction, soldierIds: readonly string[]): Promise<KnownRevision[]> {
  return tx.$queryRaw<KnownRevision[]>`
    SELECT s.id::text AS "sheetId", COALESCE((SELECT m.away_id FROM soldier_merge m
        WHERE m.undone_at IS NULL AND m.away_id = ANY(${[...soldierIds]}::uuid[]) AND m.moved @> jsonb_build_array(
          jsonb_build_object('table', 'sheet', 'column', 'candidate_id', 'keys', jsonb_build_array(jsonb_build_object('id', s.id))))
        ORDER BY m.entry LIMIT 1), s.candidate_id)::text AS owner,
      r.number, r.at, r.body ->> 'standard' AS standard, (r.body ->> 'standardVersion')::int AS version,
      r.body ->> 'arm' AS arm, r.body ->> 'finishedAt' AS "finishedAt", r.body ->> 'purpose' AS purpose,
      r.body ->> 'secondOf' IS NOT NULL AS "isSecond", r.score ->> 'outcome' AS outcome,
      s.day::text AS "lastDay", last.body ->> 'finishedAt' AS "lastFinishedAt", s.state AS "lastState"
    FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id
      JOIN sheet_revision last ON last.sheet_id = s.id AND last.number = s.revision
    WHERE s.candidate_id = ANY(${[...soldierIds]}::uuid[]) ORDER BY s.id, r.number`
}

/** By id the suspensions of these soldiers: an entry that lifts one names it so. */
export async function readSuspensionKeys(
  tx: Transaction,
  soldierIds: readonly string[],
): Promise<Map<string, { certification: string; from: string }>> {
  const rows = await tx.$queryRaw<{ id: string; certification: string; from: string }[]>`
    SELECT x.id::text, c.code AS certification, x.from_day::text AS "from"
    FROM suspension x JOIN certification c ON c.id = x.certification_id
    WHERE x.soldier_id = ANY(${[...soldierIds]}::uuid[])`
  return new Map(rows.map(({ id, ...key }) => [id, key]))
}

import { sheetInScope } from '../../access/db/scope.db.ts'
import type { PossibleDuplicate } from '../../contract/sheets/duplicates.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

const UTC = `'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'`

/** SQL that is true for a sheet that may be one of two of the same test. */
const mayBeTwice = (alias: string): Prisma.Sql =>
  Prisma.raw(`(${alias}.is_overlapping AND ${alias}.state <> 'rejected' AND ${alias}.purpose = 'test'
    AND ${alias}.ending <> 'void' AND ${alias}.second_of IS NULL)`)

/** A page of pairs of sheets that may be of one test, latest first. */
export async function listPossibleDuplicates(
  tx: Transaction,
  scope: Scope,
  page: { limit: number; after: { day: string; laterId: string; earlierId: string } | null },
): Promise<PossibleDuplicate[]> {
  const after = page.after
    ? Prisma.sql`AND (b.day, b.id, a.id) < (${page.after.day}::date, ${page.after.laterId}::uuid, ${page.after.earlierId}::uuid)`
    : Prisma.empty
  const taken = (alias: string, grader: string) =>
    Prisma.raw(`json_build_object('sheetId', ${alias}.id, 'graderId', ${alias}.grader_id,
      'grader', ${grader}.family_name || ', ' || ${grader}.given_name, 'outcome', ${alias}.outcome, 'state', ${alias}.state,
      'startedAt', to_char(${alias}.started_at AT TIME ZONE 'UTC', ${UTC}),
      'finishedAt', to_char(${alias}.finished_at AT TIME ZONE 'UTC', ${UTC}),
      'receivedAt', to_char(${alias}.received_at AT TIME ZONE 'UTC', ${UTC}))`)
  return tx.$queryRaw<PossibleDuplicate[]>`
    SELECT b.candidate_id::text AS "candidateId", c.family_name || ', ' || c.given_name AS candidate, st.code AS standard,
      b.day::text, ${taken('a', 'g')} AS earlier, ${taken('b', 'h')} AS later,
      EXISTS (SELECT FROM amendment_proposal p WHERE p.sheet_id IN (a.id, b.id) AND p.decision IS NULL) AS "isProposed"
    FROM sheet b JOIN sheet a ON a.candidate_id = b.candidate_id AND a.standard_id = b.standard_id
      AND (a.received_at, a.id) < (b.received_at, b.id) AND a.started_at < b.finished_at AND b.started_at < a.finished_at
    JOIN standard st ON st.id = b.standard_id JOIN soldier c ON c.id = b.candidate_id
    JOIN soldier g ON g.id = a.grader_id JOIN soldier h ON h.id = b.grader_id
    WHERE ${mayBeTwice('a')} AND ${mayBeTwice('b')}
      AND ${sheetInScope(scope, Prisma.sql`b.candidate_id`, Prisma.sql`b.grader_id`)} ${after}
    ORDER BY b.day DESC, b.id DESC, a.id DESC LIMIT ${page.limit}`
}

/** A sheet as far as another can be its duplicate. */
export interface StandingSheet {
  readonly candidateId: string
  readonly standardId: string
  readonly day: string
  readonly state: string
  readonly purpose: string
  readonly isSecond: boolean
}

/** A sheet that another one is said to duplicate; null where there is none. */
export async function readStandingSheet(tx: Transaction, id: string): Promise<StandingSheet | null> {
  const rows = await tx.$queryRaw<StandingSheet[]>`
    SELECT candidate_id::text AS "candidateId", standard_id::text AS "standardId", day::text, state, purpose,
      second_of IS NOT NULL AS "isSecond" FROM sheet WHERE id = ${id}::uuid`
  return rows[0] ?? null
}

/** Grader and sponsor of a sheet. */
export async function readThoseOnSheet(tx: Transaction, id: string): Promise<string[]> {
  const sheet = await tx.sheet.findUnique({ where: { id }, select: { graderId: true, sponsorId: true } })
  return sheet ? [sheet.graderId, ...(sheet.sponsorId ? [sheet.sponsorId] : [])] : []
}

/** The sheet that one was set aside for, by its revision in force; null where it was not. */
export async function readDuplicateOf(tx: Transaction, id: string): Promise<string | null> {
  const rows = await tx.$queryRaw<{ other: string | null }[]>`
    SELECT r.body->>'duplicateOf' AS other FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision
    WHERE s.id = ${id}::uuid`
  return rows[0]?.other ?? null
}

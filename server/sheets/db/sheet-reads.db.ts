import { sheetInScope, sheetNotBlinded } from '../../access/db/scope.db.ts'
import type { SheetBody, Violation } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { namedOn, presentPeople } from '../../domain/people/present-people.ts'
import type { SheetScore } from '../../domain/scoring/types.ts'
import { readPresentIds } from '../../soldiers/db/merges/merges.db.ts'

type Attempts = readonly { readonly certification: string; readonly number: number }[]

export interface SheetOutcome {
  readonly state: 'counted' | 'held' | 'rejected'
  readonly score: SheetScore
  readonly attempts: Attempts
  readonly violations: Violation[]
}

/**
 * SQL that is true for a test `s` that came in after a later one of the same soldier, as both are known now: amended ends and
 * merged entries are taken as they stand. Practice, rejected sheets and the other grader's of the same attempt make none late.
 */
export const IS_LATE = Prisma.sql`s.purpose = 'test' AND EXISTS (
  SELECT FROM sheet later WHERE later.candidate_id = s.candidate_id
    AND (later.finished_at, later.id) > (s.finished_at, s.id) AND later.received_at < s.received_at
    AND later.purpose = 'test' AND later.state <> 'rejected'
    AND later.second_of IS DISTINCT FROM s.id AND s.second_of IS DISTINCT FROM later.id)`

/** How one sheet came out, and whether after a later one, for whoever just changed it; null where there is none. */
export async function readSheetOutcome(
  tx: Transaction,
  id: string,
): Promise<(SheetOutcome & { arrivedLate: boolean }) | null> {
  const rows = await tx.$queryRaw<(SheetOutcome & { arrivedLate: boolean })[]>`
    SELECT s.state, s.violations, s.attempts, r.score, ${IS_LATE} AS "arrivedLate"
    FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision WHERE s.id = ${id}::uuid`
  return rows[0] ?? null
}

export async function hasArrivedLate(tx: Transaction, id: string): Promise<boolean> {
  const [row] = await tx.$queryRaw<[{ late: boolean }]>`
    SELECT EXISTS (SELECT FROM sheet s WHERE s.id = ${id}::uuid AND ${IS_LATE}) AS late`
  return row.late
}

/** Of these sheets those that came in late, of each soldier the first. */
export async function firstArrivedLate(tx: Transaction, ids: readonly string[]) {
  return tx.$queryRaw<{ sheetId: string; aboutId: string; standard: string; day: string }[]>`
    SELECT DISTINCT ON (s.candidate_id) s.id::text AS "sheetId", s.candidate_id::text AS "aboutId", t.code AS standard, s.day::text
    FROM sheet s JOIN standard t ON t.id = s.standard_id WHERE s.id = ANY(${[...ids]}::uuid[]) AND ${IS_LATE}
    ORDER BY s.candidate_id, s.finished_at, s.id`
}

export interface SheetRow extends SheetOutcome {
  readonly id: string
  readonly day: string
  readonly finishedAtMs: number
  readonly receivedAt: Date
  readonly revisedAt: Date
  readonly revision: number
  readonly waived: string[]
  readonly tolerated: string[]
  readonly overlaps: boolean
  readonly body: SheetBody
  readonly people: Record<string, string>
}

export interface SheetFilter {
  readonly soldierId?: string | undefined
  readonly state?: 'counted' | 'held' | 'rejected' | undefined
  readonly purpose?: 'test' | 'practice' | undefined
}

const COLUMNS = Prisma.sql`s.id::text, s.state, s.violations, s.attempts, s.day::text, s.received_at AS "receivedAt", s.revised_at AS "revisedAt",
  (extract(epoch FROM s.finished_at) * 1000)::float8 AS "finishedAtMs", s.revision, s.waived, s.tolerated, s.is_overlapping AS "overlaps",
  r.body || jsonb_build_object('candidateId', s.candidate_id, 'sponsorId', s.sponsor_id, 'graderId', s.grader_id) AS body,
  r.score,
  (SELECT json_object_agg(p.id, concat_ws(' ', (SELECT grade FROM soldier_period WHERE soldier_id = p.id
      ORDER BY from_day > s.day, abs(from_day - s.day) LIMIT 1), p.family_name) || ', ' || p.given_name)
    FROM soldier p WHERE p.id IN (s.candidate_id, s.grader_id, s.sponsor_id)) AS people`

/** In words, not as parameters: a plan for whatever state could not use the index of those held. */
const IN_STATE = {
  counted: Prisma.sql`s.state = 'counted'`,
  held: Prisma.sql`s.state = 'held'`,
  rejected: Prisma.sql`s.state = 'rejected'`,
}

const visible = (scope: Scope): Prisma.Sql =>
  Prisma.sql`(${sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)} AND ${sheetNotBlinded(scope, 's')})`

/** A page of sheets, latest first. `after` is the place of the last sheet of the page before. */
export async function listSheets(
  tx: Transaction,
  scope: Scope,
  filter: SheetFilter,
  page: { limit: number; after: { finishedAtMs: number; id: string } | null },
): Promise<SheetRow[]> {
  const conditions = [visible(scope)]
  if (filter.soldierId) conditions.push(Prisma.sql`s.candidate_id = ${filter.soldierId}::uuid`)
  if (filter.state) conditions.push(IN_STATE[filter.state])
  if (filter.purpose) conditions.push(Prisma.sql`s.purpose = ${filter.purpose}`)
  if (page.after) {
    const { finishedAtMs, id } = page.after
    conditions.push(Prisma.sql`(s.finished_at, s.id) < (to_timestamp(${finishedAtMs} / 1000.0), ${id}::uuid)`)
  }
  return tx.$queryRaw<SheetRow[]>`
    SELECT ${COLUMNS} FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY s.finished_at DESC, s.id DESC LIMIT ${page.limit}`
}

export interface SheetHistory {
  readonly sheet: SheetRow
  readonly revisions: readonly {
    number: number
    at: string
    by: string | null
    reason: string | null
    /** What was tolerated of the revision before when this one replaced it. */
    toleratedBefore: string[]
    body: SheetBody
    score: SheetScore
  }[]
  readonly decisions: readonly {
    decision: 'count' | 'reject'
    reason: string
    at: string
    by: string | null
    waived: string[]
    revision: number
  }[]
}

/**
 * One sheet with every revision and decision, in order; null where there is none. Bodies name people by the ids they have
 * now, also where an entry was given up in a merge since.
 */
export async function readSheetHistory(tx: Transaction, scope: Scope, id: string): Promise<SheetHistory | null> {
  const [sheet] = await tx.$queryRaw<SheetRow[]>`
    SELECT ${COLUMNS} FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision
    WHERE s.id = ${id}::uuid AND ${visible(scope)}`
  if (!sheet) return null
  const [lists] = await tx.$queryRaw<[Omit<SheetHistory, 'sheet'>]>`
    SELECT
    (SELECT json_agg(json_build_object('number', r.number, 'at', to_char(r.at AT TIME ZONE 'UTC', ${UTC}), 'by', a.name,
        'reason', r.reason, 'toleratedBefore', r.tolerated_before, 'body', r.body, 'score', r.score) ORDER BY r.number)
      FROM sheet_revision r LEFT JOIN account a ON a.id = r.by_id WHERE r.sheet_id = ${id}::uuid) AS revisions,
    (SELECT COALESCE(json_agg(json_build_object('decision', d.decision, 'reason', d.reason, 'waived', d.waived,
        'revision', d.revision, 'at', to_char(d.at AT TIME ZONE 'UTC', ${UTC}), 'by', a.name) ORDER BY d.id), '[]')
      FROM sheet_decision d LEFT JOIN account a ON a.id = d.by_id WHERE d.sheet_id = ${id}::uuid) AS decisions`
  const bodies = [sheet.body, ...lists.revisions.map(({ body }) => body)]
  const present = await readPresentIds(tx, bodies.flatMap(namedOn))
  const revisions = lists.revisions.map((one) => ({ ...one, body: presentPeople(one.body, present) }))
  return { sheet: { ...sheet, body: presentPeople(sheet.body, present) }, ...lists, revisions }
}

const UTC = 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'

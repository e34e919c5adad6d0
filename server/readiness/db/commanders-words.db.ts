import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { CommandersWords, ExtensionBody, WaitingAward } from '../../contract/readiness/commanders-words.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

interface Filter {
  readonly day: string
  readonly unitId?: string | undefined
  readonly soldierId?: string | undefined
}

/** Awards in SQL that wait and that no later one has overtaken: of `e` with its certification `c`. */
const WAITS = Prisma.sql`e.in_force_from IS NULL
  AND NOT EXISTS (SELECT FROM earned_award later WHERE later.soldier_id = e.soldier_id
    AND later.certification_id = e.certification_id AND later.in_force_from IS NOT NULL
    AND (later.finished_at, later.sheet_id) > (e.finished_at, e.sheet_id))
  AND NOT EXISTS (SELECT FROM carried_award later WHERE later.soldier_id = e.soldier_id
    AND later.certification_id = e.certification_id AND later.awarded_on >= e.awarded_on)`

/** A page of the awards that wait for a commander, of the strength of a day in scope: the longest waiting first. */
export async function listWaiting(
  tx: Transaction,
  scope: Scope,
  { day, unitId, soldierId }: Filter,
  page: { limit: number; after: { awardedOn: string; rosterNumber: string; certification: string } | null },
): Promise<WaitingAward[]> {
  const { awardedOn = '0001-01-01', rosterNumber = '', certification = '' } = page.after ?? {}
  return tx.$queryRaw<WaitingAward[]>`
    SELECT e.soldier_id::text AS "soldierId", s.roster_number AS "rosterNumber",
      s.family_name || ', ' || s.given_name AS name, p.grade, p.unit_id::text AS "unitId", c.code AS certification,
      e.sheet_id::text AS "sheetId", e.awarded_on::text AS "awardedOn", e.valid_through::text AS "validThrough",
      CASE WHEN t.approval = 'required' THEN GREATEST(${day}::date, e.awarded_on) ELSE e.awarded_on END::text AS "inForceFrom",
      CASE WHEN st.status = 'certified' THEN st.valid_through::text END AS "certifiedThrough"
    FROM earned_award e JOIN soldier s ON s.id = e.soldier_id JOIN certification c ON c.id = e.certification_id
    JOIN soldier_period p ON p.soldier_id = e.soldier_id AND daterange(p.from_day, p.through_day, '[]') @> ${day}::date
    CROSS JOIN LATERAL (SELECT * FROM certification_terms t WHERE t.certification_id = c.id
      ORDER BY t.effective_from <= e.awarded_on DESC, abs(t.effective_from - e.awarded_on) LIMIT 1) t
    LEFT JOIN standing st ON st.soldier_id = e.soldier_id AND st.certification_id = c.id
      AND daterange(st.from_day, st.through_day, '[]') @> ${day}::date
    WHERE ${WAITS} AND ${soldierInScope(scope, Prisma.sql`e.soldier_id`, Prisma.sql`p.unit_id`)}
      ${unitId ? Prisma.sql`AND p.unit_id = ANY(${subtree(unitId)})` : Prisma.empty}
      ${soldierId ? Prisma.sql`AND e.soldier_id = ${soldierId}::uuid` : Prisma.empty}
      AND (${page.after === null} OR (e.awarded_on, s.roster_number, c.code) > (${awardedOn}::date, ${rosterNumber}, ${certification}))
    ORDER BY e.awarded_on, s.roster_number, c.code LIMIT ${page.limit}`
}

/** The soldiers whose sheets these are, by sheet. */
export async function readCandidatesOf(tx: Transaction, sheetIds: readonly string[]): Promise<Map<string, string>> {
  const rows = await tx.$queryRaw<{ id: string; soldierId: string }[]>`
    SELECT id::text, candidate_id::text AS "soldierId" FROM sheet WHERE id = ANY(${[...sheetIds]}::uuid[])`
  return new Map(rows.map(({ id, soldierId }) => [id, soldierId]))
}

/** The day of the award that a sheet makes and that waits; null where none does. */
export async function readWaitingDay(
  tx: Transaction,
  sheetId: string,
  certificationId: string,
): Promise<string | null> {
  const rows = await tx.$queryRaw<{ awardedOn: string }[]>`
    SELECT awarded_on::text AS "awardedOn" FROM earned_award
    WHERE sheet_id = ${sheetId}::uuid AND certification_id = ${certificationId}::uuid AND in_force_from IS NULL`
  return rows[0]?.awardedOn ?? null
}

interface NewDecision {
  readonly soldierId: string
  readonly certificationId: string
  readonly sheetId: string
  readonly decision: 'approve' | 'refuse'
  readonly on: string
  readonly reason: string
  readonly byId: string
}

export async function insertAwardDecision(tx: Transaction, { on, ...decision }: NewDecision): Promise<string> {
  return (await tx.awardDecision.create({ data: { ...decision, onDay: toDate(on) }, select: { id: true } })).id
}

type NewExtension = Pick<ExtensionBody, 'soldierId' | 'days' | 'kind' | 'reason'> & {
  readonly certificationId: string
  /** One of these is null. */
  readonly sheetId: string | null
  readonly carriedAwardId: string | null
  readonly on: string
  readonly byId: string
}

export async function insertExtension(tx: Transaction, { on, ...extension }: NewExtension): Promise<string> {
  return (await tx.extension.create({ data: { ...extension, onDay: toDate(on) }, select: { id: true } })).id
}

/** Something a commander said, that may be taken back. */
export interface StoredWord {
  readonly soldierId: string
  readonly certification: string
  readonly takenBack: boolean
  /** The last day as entered, of the carried-over award that was extended; null where tests made it. */
  readonly carriedThrough: string | null
}

/** The soldier of a word locked, and the word; null where there is none of this id. */
export async function lockWord(tx: Transaction, kind: WordKind, id: string): Promise<StoredWord | null> {
  const table = TABLES[kind]
  await tx.$queryRaw`
    SELECT person.id FROM soldier person JOIN ${table} x ON x.soldier_id = person.id WHERE x.id = ${id}::uuid
    FOR NO KEY UPDATE OF person`
  const carried =
    kind === 'extension'
      ? Prisma.sql`(SELECT valid_through::text FROM carried_award a WHERE a.id = x.carried_award_id)`
      : Prisma.sql`NULL::text`
  const rows = await tx.$queryRaw<StoredWord[]>`
    SELECT soldier_id::text AS "soldierId", (SELECT code FROM certification WHERE id = x.certification_id) AS certification,
      taken_back_at IS NOT NULL AS "takenBack", ${carried} AS "carriedThrough"
    FROM ${table} x WHERE id = ${id}::uuid`
  return rows[0] ?? null
}

export type WordKind = 'decision' | 'extension'

const TABLES: Record<WordKind, Prisma.Sql> = {
  decision: Prisma.sql`award_decision`,
  extension: Prisma.sql`award_extension`,
}

export async function takeBackWord(
  tx: Transaction,
  kind: WordKind,
  id: string,
  { at, reason, byId }: { at: Date; reason: string; byId: string },
): Promise<void> {
  await tx.$executeRaw`
    UPDATE ${TABLES[kind]} SET taken_back_at = ${at}, taken_back_reason = ${reason}, taken_back_by_id = ${byId}::uuid
    WHERE id = ${id}::uuid`
}

/** All that commanders said about a soldier's awards, the latest first. */
export async function readWords(
  tx: Transaction,
  soldierId: string,
  timeZone: string,
): Promise<Pick<CommandersWords, 'decisions' | 'extensions'>> {
  const common = Prisma.sql`x.id::text, c.code AS certification, x.on_day::text AS "on", x.reason,
    (SELECT name FROM account WHERE id = x.by_id) AS by,
    CASE WHEN x.taken_back_at IS NOT NULL THEN json_build_object(
      'on', (x.taken_back_at AT TIME ZONE ${timeZone})::date, 'reason', x.taken_back_reason) END AS "takenBack"`
  const [decisions, extensions] = await Promise.all([
    tx.$queryRaw<CommandersWords['decisions']>`
      SELECT ${common}, x.sheet_id::text AS "sheetId", x.decision
      FROM award_decision x JOIN certification c ON c.id = x.certification_id
      WHERE x.soldier_id = ${soldierId}::uuid ORDER BY x.entry DESC`,
    tx.$queryRaw<CommandersWords['extensions']>`
      SELECT ${common}, x.days, x.kind
      FROM award_extension x JOIN certification c ON c.id = x.certification_id
      WHERE x.soldier_id = ${soldierId}::uuid ORDER BY x.entry DESC`,
  ])
  return { decisions, extensions }
}

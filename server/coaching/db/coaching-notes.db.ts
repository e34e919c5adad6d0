import { soldierInScope } from '../../access/db/scope.db.ts'
import type { CoachingNoteBody } from '../../contract/coaching/coaching-notes.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** A note as stored; times in milliseconds since 1970. */
export interface StoredNote extends CoachingNoteBody {
  readonly id: string
  readonly candidateId: string
  readonly byId: string
  readonly by: string
  readonly writtenAt: Date
  readonly changedAt: Date | null
  readonly removedAt: Date | null
}

/**
 * SQL of who wrote something: grade, as of a day, and name, or the account's name where it is no soldier's.
 * In: SQL of the account's id and of the day.
 */
export const writtenBy = (accountId: Prisma.Sql, day: Prisma.Sql): Prisma.Sql =>
  Prisma.sql`(SELECT COALESCE((SELECT concat_ws(' ', (SELECT grade FROM soldier_period WHERE soldier_id = s.id
      ORDER BY from_day > ${day}, abs(from_day - ${day}) LIMIT 1), s.family_name || ', ' || s.given_name)
    FROM soldier s WHERE s.id = a.soldier_id), a.name) FROM account a WHERE a.id = ${accountId})`

const COLUMNS = Prisma.sql`n.id::text, n.candidate_id::text AS "candidateId", n.on_day::text AS "on", n.standard, n.measures,
  n.text, n.by_id::text AS "byId", n.written_at AS "writtenAt", n.changed_at AS "changedAt", n.removed_at AS "removedAt",
  ${writtenBy(Prisma.sql`n.by_id`, Prisma.sql`n.on_day`)} AS by`

/** A grader sees no coaching of those they are to judge, whatever else lets them see the candidate. */
const visible = (scope: Scope): Prisma.Sql => soldierInScope({ ...scope, graderId: null }, Prisma.sql`n.candidate_id`)

export async function insertNote(
  tx: Transaction,
  candidateId: string,
  byId: string,
  at: Date,
  { on, ...note }: CoachingNoteBody,
): Promise<string> {
  const data = { candidateId, byId, writtenAt: at, onDay: toDate(on), ...note }
  return (await tx.coachingNote.create({ data, select: { id: true } })).id
}

export async function updateNote(
  tx: Transaction,
  id: string,
  at: Date,
  { on, ...note }: CoachingNoteBody,
): Promise<void> {
  await tx.coachingNote.update({ where: { id }, data: { onDay: toDate(on), ...note, changedAt: at } })
}

/** Removes a note, or with null brings it back. */
export async function setNoteRemoved(tx: Transaction, id: string, at: Date | null): Promise<void> {
  await tx.coachingNote.update({ where: { id }, data: { removedAt: at } })
}

/** Deletes for good what was removed before an instant. */
export async function purgeRemovedNotes(tx: Transaction, before: Date): Promise<void> {
  await tx.coachingNote.deleteMany({ where: { removedAt: { lt: before } } })
}

/** One note, removed or not, locked until the transaction ends; null where there is none in scope. */
export async function lockNote(tx: Transaction, scope: Scope, id: string): Promise<StoredNote | null> {
  const rows = await tx.$queryRaw<StoredNote[]>`
    SELECT ${COLUMNS} FROM coaching_note n WHERE n.id = ${id}::uuid AND ${visible(scope)} FOR UPDATE OF n`
  return rows[0] ?? null
}

/** A page of a candidate's notes, the latest day first. */
export async function listNotes(
  tx: Transaction,
  scope: Scope,
  candidateId: string,
  page: { limit: number; after: { on: string; id: string } | null },
): Promise<StoredNote[]> {
  const later = page.after
    ? Prisma.sql`AND (n.on_day, n.id) < (${page.after.on}::date, ${page.after.id}::uuid)`
    : Prisma.empty
  return tx.$queryRaw<StoredNote[]>`
    SELECT ${COLUMNS} FROM coaching_note n
    WHERE n.candidate_id = ${candidateId}::uuid AND n.removed_at IS NULL AND ${visible(scope)} ${later}
    ORDER BY n.on_day DESC, n.id DESC LIMIT ${page.limit}`
}

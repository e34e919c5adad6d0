import { soldierInScope } from '../../access/db/scope.db.ts'
import type { Notice, NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** Something that happened, and to whom word of it goes. */
export interface News {
  readonly kind: NoticeKind
  /** The candidate. */
  readonly aboutId: string
  /** Soldiers; repeated ones are told once. */
  readonly to: readonly (string | null)[]
  readonly toOffice?: boolean
  readonly testDayId?: string | null
  readonly sheetId?: string | null
  readonly standard?: string | null
  readonly day?: string | null
  readonly startsAt?: Date | null
}

/** Stores notices; nobody is told what they did themselves. */
export async function insertNotices(
  tx: Transaction,
  at: Date,
  news: readonly News[],
  doneBy: string | null,
): Promise<void> {
  const rows = news.flatMap(({ to, toOffice, ...about }) => {
    const people = [...new Set(to)].filter((id) => id !== null && id !== doneBy)
    return [...people, ...(toOffice ? [null] : [])].map((toId) => ({ toId, ...about }))
  })
  if (rows.length === 0) return
  await tx.$executeRaw`
    INSERT INTO notice (at, kind, to_id, about_id, test_day_id, sheet_id, standard, day, starts_at)
    SELECT ${at}, n.kind, n."toId", n."aboutId", n."testDayId", n."sheetId", n.standard, n.day, n."startsAt"
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS n(kind text, "toId" uuid, "aboutId" uuid,
      "testDayId" uuid, "sheetId" uuid, standard text, day date, "startsAt" timestamptz)`
}

/**
 * Whose notices: those to a soldier, and with `office` those to the training office; as seen by an account. Who is or was
 * named as the grader of a sheet is told of it even where the candidate is out of scope, for it is in their name.
 */
export interface Reader {
  readonly accountId: string
  readonly soldierId: string | null
  readonly office: boolean
  /** Older ones are shown no more. */
  readonly since: Date
}

const toReader = (scope: Scope, { soldierId, office, since }: Reader): Prisma.Sql => Prisma.sql`
  n.at >= ${since} AND (n.to_id = ${soldierId}::uuid OR (${office} AND n.to_id IS NULL))
  AND (${soldierInScope(scope, Prisma.sql`n.about_id`)} OR EXISTS (
    SELECT FROM sheet_revision r WHERE r.sheet_id = n.sheet_id AND n.to_id = ${soldierId}::uuid
    AND ${soldierId}::uuid IN ((r.body ->> 'graderId')::uuid, (SELECT kept_id FROM soldier_merge
      WHERE away_id = (r.body ->> 'graderId')::uuid AND undone_at IS NULL))))`

const isRead = (accountId: string): Prisma.Sql =>
  Prisma.sql`EXISTS (SELECT FROM notice_read r WHERE r.notice_id = n.id AND r.account_id = ${accountId}::uuid)`

/** A page of notices, latest first. */
export async function listNotices(
  tx: Transaction,
  scope: Scope,
  reader: Reader,
  { unread }: { unread: boolean },
  page: { limit: number; after: { at: string; id: string } | null },
): Promise<Notice[]> {
  const conditions = [toReader(scope, reader)]
  if (unread) conditions.push(Prisma.sql`NOT ${isRead(reader.accountId)}`)
  if (page.after) conditions.push(Prisma.sql`(n.at, n.id) < (${page.after.at}::timestamptz, ${page.after.id}::uuid)`)
  return tx.$queryRaw<Notice[]>`
    SELECT n.id::text, to_char(n.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at, n.kind,
      n.to_id IS NULL AS "toOffice", n.about_id::text AS "aboutId",
      s.family_name || ', ' || s.given_name AS "aboutName",
      COALESCE(n.about_id = ${reader.soldierId}::uuid, false) AS "isSelf", n.test_day_id::text AS "testDayId", d.place,
      n.sheet_id::text AS "sheetId", n.standard, n.day::text,
      to_char(n.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
      ${isRead(reader.accountId)} AS read
    FROM notice n LEFT JOIN soldier s ON s.id = n.about_id LEFT JOIN test_day d ON d.id = n.test_day_id
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY n.at DESC, n.id DESC LIMIT ${page.limit}`
}

export async function countUnread(tx: Transaction, scope: Scope, reader: Reader): Promise<number> {
  const [row] = await tx.$queryRaw<[{ count: number }]>`
    SELECT count(*)::int AS count FROM notice n WHERE ${toReader(scope, reader)} AND NOT ${isRead(reader.accountId)}`
  return row.count
}

/** Marks notices as read by the account; `ids` undefined: all that it may see. */
export async function markRead(
  tx: Transaction,
  scope: Scope,
  reader: Reader,
  ids: readonly string[] | undefined,
): Promise<void> {
  const chosen = ids === undefined ? Prisma.empty : Prisma.sql`AND n.id = ANY(${[...ids]}::uuid[])`
  await tx.$executeRaw`
    INSERT INTO notice_read (notice_id, account_id)
    SELECT n.id, ${reader.accountId}::uuid FROM notice n WHERE ${toReader(scope, reader)} ${chosen}
    ON CONFLICT DO NOTHING`
}

/** Who coaches a candidate on a day. */
export async function readSponsorsOn(tx: Transaction, candidateId: string, day: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT sponsor_id::text AS id FROM sponsorship
    WHERE candidate_id = ${candidateId}::uuid AND daterange(from_day, to_day, '[]') @> ${day}::date`
  return rows.map(({ id }) => id)
}

/** Candidate, sponsor, grader, standard and day of a sheet. */
export async function readSheetConcerned(tx: Transaction, sheetId: string) {
  const rows = await tx.$queryRaw<
    { candidateId: string; sponsorId: string | null; graderId: string; standard: string; day: string }[]
  >`
    SELECT s.candidate_id::text AS "candidateId", s.sponsor_id::text AS "sponsorId", s.grader_id::text AS "graderId",
      st.code AS standard, s.day::text FROM sheet s JOIN standard st ON st.id = s.standard_id WHERE s.id = ${sheetId}::uuid`
  return rows[0]!
}

/** Everybody whom sheets name as candidate or grader. */
export async function readCandidatesAndGraders(tx: Transaction, sheetIds: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT candidate_id::text AS id FROM sheet WHERE id = ANY(${[...sheetIds]}::uuid[])
    UNION SELECT grader_id::text FROM sheet WHERE id = ANY(${[...sheetIds]}::uuid[]) ORDER BY 1`
  return rows.map(({ id }) => id)
}

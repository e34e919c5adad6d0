import { reachOf, soldierInScope } from '../../access/db/scope.db.ts'
import type { Notice } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/**
 * Whose notices: those to a soldier, with `office` those to the training office, and those to whoever leads or commands a unit; as
 * seen by an account. A commander is not asked to decide about their own award. Who is or was named as the grader of a sheet is told of it even where the candidate is out of scope, for
 * it is in their name.
 */
export interface Reader {
  readonly accountId: string
  readonly soldierId: string | null
  readonly office: boolean
  /** The unit that the account leads. */
  readonly ledUnitId: string | null
  /** The unit that the account commands. */
  readonly commandedUnitId: string | null
  /** Older ones are shown no more. */
  readonly since: Date
}

const toReader = (
  scope: Scope,
  { accountId, soldierId, office, ledUnitId, commandedUnitId, since }: Reader,
): Prisma.Sql => {
  const led = { ...scope, everyone: false, unitId: ledUnitId, selfId: null, sponsorId: null, graderId: null }
  const commanded = { ...led, unitId: commandedUnitId }
  return Prisma.sql`
    n.at >= ${since} AND (CASE WHEN n.ask_id IS NOT NULL THEN EXISTS (SELECT FROM soldier_ask a WHERE a.id = n.ask_id
      AND CASE n.kind WHEN 'soldier asked for' THEN a.unit_id = ANY(${ledUnitId === null ? Prisma.sql`'{}'::uuid[]` : reachOf(ledUnitId)})
        ELSE a.asked_by_id = ${accountId}::uuid END)
    ELSE (n.to_id = ${soldierId}::uuid OR (${office} AND n.to_id IS NULL AND NOT n.to_leaders AND NOT n.to_commanders)
      OR n.to_leaders AND ${soldierInScope(led, Prisma.sql`n.about_id`)}
      OR n.to_commanders AND n.about_id IS DISTINCT FROM ${soldierId}::uuid AND ${soldierInScope(commanded, Prisma.sql`n.about_id`)})
    AND (${soldierInScope(scope, Prisma.sql`n.about_id`)} OR EXISTS (
      SELECT FROM sheet_revision r WHERE r.sheet_id = n.sheet_id AND n.to_id = ${soldierId}::uuid
      AND ${soldierId}::uuid IN ((r.body ->> 'graderId')::uuid, (SELECT kept_id FROM soldier_merge
        WHERE away_id = (r.body ->> 'graderId')::uuid AND undone_at IS NULL)))) END)`
}

const isRead = (accountId: string): Prisma.Sql =>
  Prisma.sql`EXISTS (SELECT FROM notice_read r WHERE r.notice_id = n.id AND r.account_id = ${accountId}::uuid)`

/** So many days word of something that asks nothing of anybody is news. */
const NEWS_DAYS = 14

/**
 * SQL that is true for notices `n` whose matter is over on a day: what they say is done, undone or past. Those that only tell
 * what was done are over after some days at the latest.
 */
const isOver = (today: string): Prisma.Sql => {
  const day = Prisma.sql`${today}::date`
  const isOld = Prisma.sql`n.at < ${day} - ${NEWS_DAYS}::int`
  // A value, not EXISTS: that PostgreSQL may answer by reading every sheet once, where there are many notices.
  const sheet = (column: 'state' | 'revision') =>
    Prisma.sql`(SELECT ${Prisma.raw(column)} FROM sheet WHERE id = n.sheet_id)`
  const sheetIsNot = (state: string) => Prisma.sql`${sheet('state')} IS DISTINCT FROM ${state}`
  const pairDiffers = (which: 'a' | 'b') => Prisma.sql`(SELECT true FROM sheet a JOIN sheet b ON b.second_of = a.id
    WHERE ${Prisma.raw(which)}.id = n.sheet_id AND a.ending <> 'void' AND b.ending <> 'void' AND a.outcome <> b.outcome LIMIT 1)`
  return Prisma.sql`CASE
    WHEN n.kind IN ('booked', 'moved', 'needed again') THEN n.day < ${day} OR NOT EXISTS (
      SELECT FROM booking b JOIN standard s ON s.id = b.standard_id
      WHERE b.candidate_id = n.about_id AND b.test_day_id = n.test_day_id AND s.code = n.standard
        AND b.state IN ('booked', 'checked in') AND b.starts_at IS NOT DISTINCT FROM n.starts_at)
    WHEN n.kind IN ('cancelled', 'day called off', 'not needed') THEN n.day < ${day}
    WHEN n.kind = 'sheet held' THEN ${sheetIsNot('held')}
    WHEN n.kind = 'sheet counted' THEN ${isOld} OR ${sheetIsNot('counted')}
    WHEN n.kind = 'sheet rejected' THEN ${isOld} OR ${sheetIsNot('rejected')}
    WHEN n.kind = 'sheet entered' THEN ${isOld} OR COALESCE(${sheet('revision')} > 1, false)
    WHEN n.kind = 'sheet arrived late' THEN ${isOld}
      OR COALESCE(${sheet('state')} = 'rejected', false)
    WHEN n.kind = 'amendment proposed' THEN NOT EXISTS (
      SELECT FROM amendment_proposal WHERE sheet_id = n.sheet_id AND decision IS NULL)
    WHEN n.kind = 'appealed' THEN NOT EXISTS (SELECT FROM appeal WHERE sheet_id = n.sheet_id AND decision IS NULL)
    WHEN n.kind = 'due day moved' THEN NOT EXISTS (SELECT FROM retest_span r
      WHERE r.soldier_id = n.about_id AND r.standard = n.standard AND daterange(r.from_day, r.through_day, '[]') @> ${day}
        AND n.day = (SELECT m.due FROM due_move m WHERE m.soldier_id = r.soldier_id
          AND m.certification_id = r.certification_id AND m.standard = r.standard AND m.on_day = r.on_day
          ORDER BY m.entry DESC LIMIT 1))
    WHEN n.kind = 'sponsor ended' THEN EXISTS (SELECT FROM sponsorship x WHERE x.candidate_id = n.about_id
      AND x.from_day <= GREATEST(${day}, n.day + 1) AND (x.to_day IS NULL OR x.to_day > n.day))
    WHEN n.kind = 'graders differ' THEN NOT COALESCE(${pairDiffers('a')}, ${pairDiffers('b')}, false)
    WHEN n.kind = 'award waiting' THEN NOT EXISTS (SELECT FROM earned_award e JOIN certification c ON c.id = e.certification_id
      WHERE e.sheet_id = n.sheet_id AND c.code = n.certification AND e.in_force_from IS NULL)
    WHEN n.kind = 'soldier asked for' THEN n.day < ${day} OR EXISTS (SELECT FROM soldier_ask a
      JOIN ceremony c ON c.id = a.ceremony_id WHERE a.id = n.ask_id AND (a.answer IS NOT NULL OR c.cancelled_at IS NOT NULL))
    ELSE ${isOld} END`
}

/** SQL of what a notice tells of an ask. */
const ASK = Prisma.sql`(SELECT json_build_object('ceremonyId', c.id, 'title', c.title, 'post', p.title, 'unitName', u.name,
    'answer', a.answer, 'word', a.word)
  FROM soldier_ask a JOIN ceremony c ON c.id = a.ceremony_id JOIN post p ON p.id = a.post_id JOIN unit u ON u.id = a.unit_id
  WHERE a.id = n.ask_id)`

/** A page of notices, latest first; `unread`: only those neither read nor over; `ids`: only these. */
export async function listNotices(
  tx: Transaction,
  scope: Scope,
  reader: Reader,
  { unread, ids }: { unread: boolean; ids?: readonly string[] },
  page: { limit: number; after: { at: string; id: string } | null },
): Promise<Notice[]> {
  const conditions = [toReader(scope, reader)]
  if (unread) conditions.push(Prisma.sql`NOT ${isRead(reader.accountId)} AND NOT ${isOver(scope.today)}`)
  if (ids) conditions.push(Prisma.sql`n.id = ANY(${[...ids]}::uuid[])`)
  if (page.after) conditions.push(Prisma.sql`(n.at, n.id) < (${page.after.at}::timestamptz, ${page.after.id}::uuid)`)
  return tx.$queryRaw<Notice[]>`
    SELECT n.id::text, to_char(n.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at, n.kind,
      n.to_id IS NULL AND NOT n.to_leaders AND NOT n.to_commanders AND n.ask_id IS NULL AS "toOffice",
      n.to_leaders OR n.kind = 'soldier asked for' AS "toLeaders", n.to_commanders AS "toCommanders", n.about_id::text AS "aboutId",
      s.family_name || ', ' || s.given_name AS "aboutName",
      COALESCE(n.about_id = ${reader.soldierId}::uuid, false) AS "isSelf", n.test_day_id::text AS "testDayId", d.place,
      n.sheet_id::text AS "sheetId", ${ASK} AS ask, n.standard, n.certification, n.day::text,
      to_char(n.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
      ${isRead(reader.accountId)} AS read, ${isOver(scope.today)} AS over
    FROM notice n LEFT JOIN soldier s ON s.id = n.about_id LEFT JOIN test_day d ON d.id = n.test_day_id
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY n.at DESC, n.id DESC LIMIT ${page.limit}`
}

/** How many are neither read nor over. */
export async function countUnread(tx: Transaction, scope: Scope, reader: Reader): Promise<number> {
  const [row] = await tx.$queryRaw<[{ count: number }]>`
    SELECT count(*)::int AS count FROM notice n WHERE ${toReader(scope, reader)}
      AND NOT ${isRead(reader.accountId)} AND NOT ${isOver(scope.today)}`
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

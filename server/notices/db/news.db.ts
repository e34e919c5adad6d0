import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { PUSH_KIND } from '../../domain/notices/push-kind.ts'

/** Something that happened, and to whom word of it goes. */
export interface News {
  readonly kind: NoticeKind
  /** The candidate. */
  readonly aboutId: string
  /** Soldiers; repeated ones are told once. */
  readonly to: readonly (string | null)[]
  readonly toOffice?: boolean
  /** Whoever leads the candidate's unit, or one above it. */
  readonly toLeaders?: boolean
  /** Commanders above the candidate. */
  readonly toCommanders?: boolean
  readonly testDayId?: string | null
  readonly sheetId?: string | null
  readonly standard?: string | null
  readonly certification?: string | null
  readonly day?: string | null
  readonly startsAt?: Date | null
}

/** Stores notices, and puts word of those that are told outside the pages into the queue; nobody is told what they did themselves. */
export async function insertNotices(
  tx: Transaction,
  at: Date,
  news: readonly News[],
  doneBy: string | null,
): Promise<void> {
  const rows = news.flatMap(({ to, toOffice, toLeaders, toCommanders, ...about }) => {
    const people = [...new Set(to)].filter((id) => id !== null && id !== doneBy)
    const nobody = { toId: null, toLeaders: false, toCommanders: false }
    const wide = [
      ...(toOffice ? [nobody] : []),
      ...(toLeaders ? [{ ...nobody, toLeaders }] : []),
      ...(toCommanders ? [{ ...nobody, toCommanders }] : []),
    ]
    return [...people.map((toId) => ({ ...nobody, toId })), ...wide].map((row) => ({ ...row, ...about }))
  })
  if (rows.length === 0) return
  await tx.$executeRaw`
    WITH n AS (SELECT * FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS n(kind text, "toId" uuid,
      "toLeaders" boolean, "toCommanders" boolean, "aboutId" uuid, "testDayId" uuid, "sheetId" uuid, standard text,
      certification text, day date, "startsAt" timestamptz)),
    stored AS (INSERT INTO notice (at, kind, to_id, to_leaders, to_commanders, about_id, test_day_id, sheet_id, standard,
        certification, day, starts_at)
      SELECT ${at}, n.kind, n."toId", n."toLeaders", n."toCommanders", n."aboutId", n."testDayId", n."sheetId", n.standard,
        n.certification, n.day, n."startsAt"
      FROM n)
    ${queuePushes(at, rows)}`
}

/**
 * SQL that puts word of notices `n` into the queue of every browser in which whoever they go to has opted in. One a kind waits
 * at a time; a later one is sent even where the one before is just on its way.
 */
const queuePushes = (at: Date, rows: readonly { readonly kind: NoticeKind }[]): Prisma.Sql => {
  const kinds = new Map(rows.flatMap(({ kind }) => (PUSH_KIND[kind] ? [[kind, PUSH_KIND[kind]] as const] : [])))
  return Prisma.sql`INSERT INTO push_message (subscription_id, kind, made_at, due_at)
    SELECT DISTINCT s.id, k.value, ${at}::timestamptz, ${at}::timestamptz
    FROM n JOIN jsonb_each_text(${JSON.stringify(Object.fromEntries(kinds))}::jsonb) k ON k.key = n.kind
    JOIN account a ON a.soldier_id = n."toId" AND a.disabled_at IS NULL
    JOIN push_subscription s ON s.account_id = a.id
    WHERE EXISTS (SELECT FROM push_setting WHERE is_on)
    ON CONFLICT (subscription_id, kind) DO UPDATE SET made_at = EXCLUDED.made_at`
}

/** Stores word of an ask: to leaders of the unit asked, or who asked, which the ask says. */
export async function insertAskNotice(
  tx: Transaction,
  at: Date,
  kind: NoticeKind,
  { askId, day }: { askId: string; day: string },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO notice (at, kind, ask_id, day) VALUES (${at}, ${kind}, ${askId}::uuid, ${day}::date)`
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
    {
      sheetId: string
      candidateId: string
      sponsorId: string | null
      graderId: string
      standard: string
      day: string
    }[]
  >`
    SELECT s.id::text AS "sheetId", s.candidate_id::text AS "candidateId", s.sponsor_id::text AS "sponsorId", s.grader_id::text AS "graderId",
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

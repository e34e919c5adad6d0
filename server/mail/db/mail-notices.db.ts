import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'

/** Number of our advisory lock: one server process at a time looks which notices are to go out. */
const lockNumber = 41_800_005

/** Takes the lock until the transaction ends. Out: false, where another process has it. */
export async function tryNoticeLock(tx: Transaction): Promise<boolean> {
  const [row] = await tx.$queryRaw<
    [{ taken: boolean }]
  >`SELECT pg_try_advisory_xact_lock(${lockNumber}::bigint) AS taken`
  return row.taken
}

export interface FreshNotice {
  readonly noticeId: string
  readonly kind: NoticeKind
  readonly accountId: string
}

/**
 * Notices since a moment that mail has not dealt with, once for each account that they may be to: of the soldier told, of the
 * office, of whoever leads or commands the unit. Whether they are, in scope and not over, is asked when the mail is written. Nothing from
 * before an address was confirmed is among them.
 */
export async function listFresh(tx: Transaction, since: Date, day: string): Promise<FreshNotice[]> {
  return tx.$queryRaw<FreshNotice[]>`
    WITH fresh AS (SELECT * FROM notice WHERE at >= ${since}),
    addressee AS (SELECT a.id, a.soldier_id, a.unit_id, a.roles, m.confirmed_at FROM mail_address m
      JOIN account a ON a.id = m.account_id
      WHERE m.confirmed_at IS NOT NULL AND m.refused_at IS NULL AND a.disabled_at IS NULL),
    told AS (
      SELECT n.id, n.kind, n.at, a.id AS account_id, a.confirmed_at FROM fresh n JOIN addressee a ON a.soldier_id = n.to_id
      UNION SELECT n.id, n.kind, n.at, a.id, a.confirmed_at FROM fresh n JOIN addressee a ON 'office' = ANY(a.roles)
        WHERE n.to_id IS NULL AND NOT n.to_leaders AND NOT n.to_commanders AND n.ask_id IS NULL
      UNION SELECT n.id, n.kind, n.at, a.id, a.confirmed_at FROM fresh n
        JOIN soldier_period p ON p.soldier_id = n.about_id AND daterange(p.from_day, p.through_day, '[]') @> ${day}::date
        JOIN unit u ON u.id = p.unit_id JOIN addressee a ON a.unit_id = ANY(u.lineage)
        WHERE n.to_leaders AND 'leader' = ANY(a.roles) OR n.to_commanders AND 'commander' = ANY(a.roles)
      UNION SELECT n.id, n.kind, n.at, a.id, a.confirmed_at FROM fresh n JOIN soldier_ask k ON k.id = n.ask_id
        JOIN unit u ON u.id = k.unit_id
        JOIN addressee a ON a.id = k.asked_by_id OR 'leader' = ANY(a.roles) AND a.unit_id = ANY(u.lineage))
    SELECT t.id::text AS "noticeId", t.kind, t.account_id::text AS "accountId" FROM told t
    WHERE t.at >= t.confirmed_at
      AND NOT EXISTS (SELECT FROM mail_notice d WHERE d.notice_id = t.id AND d.account_id = t.account_id)
    ORDER BY t.account_id, t.at, t.id LIMIT 5000`
}

/** Notes that mail has dealt with notices to an account. In: the mail they go out with; null: not wanted. */
export async function markNotices(
  tx: Transaction,
  accountId: string,
  noticeIds: readonly string[],
  mailId: string | null,
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO mail_notice (notice_id, account_id, mail_id)
    SELECT n.id, ${accountId}::uuid, ${mailId}::uuid FROM notice n WHERE n.id = ANY(${[...noticeIds]}::uuid[])
    ON CONFLICT DO NOTHING`
}

/** The notices that a mail is about. */
export async function noticesOf(tx: Transaction, mailId: string): Promise<string[]> {
  const rows = await tx.mailNotice.findMany({ where: { mailId }, select: { noticeId: true } })
  return rows.map(({ noticeId }) => noticeId)
}

/** Forgets which notices were dealt with that are too old to be looked at again. */
export async function deleteOldMarks(tx: Transaction, before: Date): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM mail_notice d USING notice n WHERE n.id = d.notice_id AND d.mail_id IS NULL AND n.at < ${before}`
}

import type { Transaction } from '../../db/client.ts'

export type MailType = 'news' | 'daily' | 'weekly' | 'code' | 'address changed' | 'test'

export interface NewMail {
  readonly accountId: string
  readonly kind: MailType
  readonly at: Date
  readonly dueAt: Date
  /** YYYY-MM-DD; of daily and weekly ones. */
  readonly forDay?: string
  readonly toAddress?: string
}

/** Puts a mail in the queue. Out: its id; null where the one of that day is there already. */
export async function queueMail(
  tx: Transaction,
  { accountId, kind, at, dueAt, forDay, toAddress }: NewMail,
): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ id: string }[]>`
    INSERT INTO mail (account_id, kind, for_day, to_address, queued_at, due_at)
    VALUES (${accountId}::uuid, ${kind}, ${forDay ?? null}::date, ${toAddress ?? null}, ${at}, ${dueAt})
    ON CONFLICT (account_id, kind, for_day) DO NOTHING RETURNING id::text`
  return row?.id ?? null
}

/** The daily mail of an account for a day, made where it is not there; null where that has gone out. Kept as it is until the transaction ends. */
export async function openDaily(tx: Transaction, mail: NewMail): Promise<string | null> {
  const fresh = await queueMail(tx, mail)
  if (fresh !== null) return fresh
  const [row] = await tx.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM mail WHERE account_id = ${mail.accountId}::uuid AND kind = 'daily'
      AND for_day = ${mail.forDay ?? null}::date AND state = 'waiting' AND claim IS NULL FOR UPDATE`
  return row?.id ?? null
}

/** So many mails of a kind an account was to be sent since a moment. */
export async function countMails(tx: Transaction, accountId: string, kind: MailType, since: Date): Promise<number> {
  return tx.mail.count({ where: { accountId, kind, queuedAt: { gt: since } } })
}

/** A mail that is being sent: by this claim nobody else sends it, for a while. */
export interface ClaimedMail {
  readonly id: string
  readonly accountId: string
  readonly kind: MailType
  readonly forDay: string | null
  readonly toAddress: string | null
  readonly dueAt: Date
  readonly queuedAt: Date
  readonly attempts: number
  readonly claim: string
}

/**
 * Claims a mail that is due, the one that was due or tried longest ago: one over which a connection breaks each time keeps no
 * other back. Null: none is due. One that was claimed by a server that died is due again after the claim's time.
 */
export async function claimMail(tx: Transaction, now: Date, until: Date): Promise<ClaimedMail | null> {
  const [row] = await tx.$queryRaw<ClaimedMail[]>`
    UPDATE mail SET claim = gen_random_uuid(), claimed_until = ${until}, tried_at = ${now}
    WHERE id = (SELECT id FROM mail WHERE state = 'waiting' AND due_at <= ${now}
      AND (claimed_until IS NULL OR claimed_until <= ${now}) ORDER BY GREATEST(due_at, tried_at), id LIMIT 1 FOR UPDATE SKIP LOCKED)
    RETURNING id::text, account_id::text AS "accountId", kind, for_day::text AS "forDay", to_address AS "toAddress",
      due_at AS "dueAt", queued_at AS "queuedAt", attempts::int, claim::text`
  return row ?? null
}

/** What became of a claimed mail: done for good, or due again. */
export type MailEnd =
  | { readonly state: 'sent' | 'empty' | 'failed' | 'dropped'; readonly at: Date; readonly problem?: string }
  | { readonly state: 'waiting'; readonly dueAt: Date; readonly attempts: number; readonly problem: string }

/** Stores what became of it. Out: false where the claim is somebody else's by now. */
export async function endClaim(tx: Transaction, { id, claim }: ClaimedMail, end: MailEnd): Promise<boolean> {
  const data =
    end.state === 'waiting'
      ? { dueAt: end.dueAt, attempts: end.attempts, problem: end.problem }
      : {
          state: end.state,
          doneAt: end.at,
          problem: end.problem ?? null,
          ...(end.state === 'sent' && { toAddress: null }),
        }
  const { count } = await tx.mail.updateMany({
    where: { id, claim, state: 'waiting' },
    data: { ...data, claim: null, claimedUntil: null },
  })
  return count === 1
}

/** Forgets mails that are done since long; failed ones are kept for longer. */
export async function deleteOldMails(tx: Transaction, { done, failed }: { done: Date; failed: Date }): Promise<void> {
  await tx.mail.deleteMany({
    where: {
      OR: [
        { state: { in: ['sent', 'empty', 'dropped'] }, doneAt: { lt: done } },
        { state: 'failed', doneAt: { lt: failed } },
      ],
    },
  })
}

/** Ends what waits to be sent to an account, but for codes. */
export async function dropWaiting(tx: Transaction, accountId: string, at: Date): Promise<void> {
  await tx.mail.updateMany({
    where: { accountId, state: 'waiting', toAddress: null },
    data: { state: 'dropped', doneAt: at, claim: null, claimedUntil: null },
  })
}

export interface MailFigures {
  readonly waiting: number
  readonly failed: number
  readonly refusedAddresses: number
  readonly lastSentAt: Date | null
  /** What stood in the way last, of mails that still wait. */
  readonly problem: string | null
  readonly problemAt: Date | null
}

export async function readMailFigures(tx: Transaction, now: Date): Promise<MailFigures> {
  const [row] = await tx.$queryRaw<[MailFigures]>`
    SELECT (SELECT count(*)::int FROM mail WHERE state = 'waiting' AND due_at <= ${now}) AS waiting,
      (SELECT count(*)::int FROM mail WHERE state = 'failed') AS failed,
      (SELECT count(*)::int FROM mail_address WHERE refused_at IS NOT NULL) AS "refusedAddresses",
      (SELECT max(done_at) FROM mail WHERE state = 'sent') AS "lastSentAt", stuck.problem, stuck.tried_at AS "problemAt"
    FROM (SELECT 1) one LEFT JOIN LATERAL (SELECT problem, tried_at FROM mail
      WHERE state = 'waiting' AND problem IS NOT NULL ORDER BY tried_at DESC LIMIT 1) stuck ON true`
  return row
}

export interface FailedMail {
  readonly id: string
  readonly kind: MailType
  readonly accountId: string
  readonly accountName: string
  readonly address: string | null
  readonly isRefused: boolean
  readonly problem: string
  readonly failedAt: Date
}

/** Mails given up, the latest first. */
export async function listFailed(
  tx: Transaction,
  page: { limit: number; after: { at: string; id: string } | null },
): Promise<FailedMail[]> {
  return tx.$queryRaw<FailedMail[]>`
    SELECT x.id::text, x.kind, a.id::text AS "accountId", a.name AS "accountName", COALESCE(x.to_address, m.address) AS address,
      m.refused_at IS NOT NULL AS "isRefused", COALESCE(x.problem, '') AS problem, x.done_at AS "failedAt"
    FROM mail x JOIN account a ON a.id = x.account_id LEFT JOIN mail_address m ON m.account_id = a.id
    WHERE x.state = 'failed' AND (${page.after === null}
      OR (x.done_at, x.id) < (${page.after?.at ?? null}::timestamptz, ${page.after?.id ?? null}::uuid))
    ORDER BY x.done_at DESC, x.id DESC LIMIT ${page.limit}`
}

/** A failed mail, for who is about to change it: whether its address is refused. Null: there is none. */
export async function lockFailed(tx: Transaction, id: string): Promise<{ kind: MailType; isRefused: boolean } | null> {
  const [row] = await tx.$queryRaw<{ kind: MailType; isRefused: boolean }[]>`
    SELECT x.kind, EXISTS (SELECT FROM mail_address m WHERE m.account_id = x.account_id AND m.refused_at IS NOT NULL) AS "isRefused"
    FROM mail x WHERE x.id = ${id}::uuid AND x.state = 'failed' FOR UPDATE`
  return row ?? null
}

/** Puts a failed mail back into the queue, as if it were new. */
export async function retryFailed(tx: Transaction, id: string, at: Date): Promise<void> {
  await tx.mail.update({
    where: { id },
    data: { state: 'waiting', doneAt: null, attempts: 0, queuedAt: at, dueAt: at, problem: null },
  })
}

export async function dropFailed(tx: Transaction, id: string): Promise<void> {
  await tx.mail.update({ where: { id }, data: { state: 'dropped' } })
}

import type { Transaction } from '../../db/client.ts'
import type { PushKind } from '../../domain/notices/push-kind.ts'

export interface PushSetting {
  readonly isOn: boolean
  readonly contact: string | null
}

/** Whether notifications are on; without a setting they are off. */
export async function readPushSetting(tx: Transaction): Promise<PushSetting> {
  return (await tx.pushSetting.findFirst({ select: { isOn: true, contact: true } })) ?? { isOn: false, contact: null }
}

/** Turns notifications on or off; off, what waits is thrown away. */
export async function writePushSetting(tx: Transaction, setting: { isOn: boolean; contact: string }): Promise<void> {
  await tx.pushSetting.upsert({ where: { one: true }, create: setting, update: setting })
  if (!setting.isOn) await tx.pushMessage.deleteMany()
}

/** The browsers of an account that take notifications: whether it is that of a session, and since when. */
export async function listSubscriptions(
  tx: Transaction,
  accountId: string,
  sessionHash: Buffer,
): Promise<{ isHere: boolean; since: Date }[]> {
  return tx.$queryRaw<{ isHere: boolean; since: Date }[]>`
    SELECT EXISTS (SELECT FROM session WHERE id = p.session_id AND token_hash = ${sessionHash}) AS "isHere", p.since
    FROM push_subscription p WHERE p.account_id = ${accountId}::uuid`
}

/** More browsers than this nobody has. */
const MOST_EACH = 20

/** Keeps a browser's subscription for the account and the session; whoever had it in this browser before loses it. */
export async function keepSubscription(
  tx: Transaction,
  {
    accountId,
    sessionHash,
    endpoint,
    p256dh,
    auth,
    at,
  }: {
    accountId: string
    sessionHash: Buffer
    endpoint: string
    p256dh: string
    auth: string
    at: Date
  },
): Promise<void> {
  await tx.$executeRaw`DELETE FROM push_subscription WHERE endpoint <> ${endpoint}
    AND session_id = (SELECT id FROM session WHERE token_hash = ${sessionHash})`
  await tx.$executeRaw`DELETE FROM push_message WHERE subscription_id IN (
    SELECT id FROM push_subscription WHERE endpoint = ${endpoint} AND account_id <> ${accountId}::uuid)`
  await tx.$executeRaw`
    INSERT INTO push_subscription (account_id, session_id, endpoint, p256dh, auth, since)
    SELECT ${accountId}::uuid, id, ${endpoint}, ${p256dh}, ${auth}, ${at} FROM session WHERE token_hash = ${sessionHash}
    ON CONFLICT (endpoint) DO UPDATE SET account_id = EXCLUDED.account_id, session_id = EXCLUDED.session_id,
      p256dh = EXCLUDED.p256dh, auth = EXCLUDED.auth,
      since = CASE WHEN push_subscription.account_id = EXCLUDED.account_id THEN push_subscription.since ELSE EXCLUDED.since END`
  await tx.$executeRaw`
    DELETE FROM push_subscription WHERE id IN (SELECT id FROM push_subscription WHERE account_id = ${accountId}::uuid
      ORDER BY since DESC, id OFFSET ${MOST_EACH})`
}

/** Ends notifications to the browser of a session. Out: whether there were any. */
export async function dropSubscription(tx: Transaction, sessionHash: Buffer): Promise<boolean> {
  const count = await tx.$executeRaw`DELETE FROM push_subscription
    WHERE session_id = (SELECT id FROM session WHERE token_hash = ${sessionHash})`
  return count > 0
}

/** Something that is on its way to a browser. */
export interface DuePush {
  readonly id: string
  readonly subscriptionId: string
  readonly kind: PushKind
  readonly madeAt: Date
  /** This one counted. */
  readonly tries: number
  readonly endpoint: string
  readonly p256dh: string
  readonly auth: string
  readonly contact: string
}

/**
 * Takes messages that are due, so that no other server process sends them until `until`: whoever dies over them has them
 * sent then.
 */
export async function takeDuePushes(tx: Transaction, now: Date, until: Date, most: number): Promise<DuePush[]> {
  return tx.$queryRaw<DuePush[]>`
    WITH due AS (SELECT m.id FROM push_message m WHERE m.due_at <= ${now} ORDER BY m.due_at LIMIT ${most}
      FOR UPDATE SKIP LOCKED),
    taken AS (UPDATE push_message m SET due_at = ${until}, tries = m.tries + 1 FROM due WHERE m.id = due.id RETURNING m.*)
    SELECT t.id::text, t.subscription_id::text AS "subscriptionId", t.kind, t.made_at AS "madeAt", t.tries, s.endpoint,
      s.p256dh, s.auth, setting.contact
    FROM taken t JOIN push_subscription s ON s.id = t.subscription_id
    JOIN account a ON a.id = s.account_id AND a.disabled_at IS NULL JOIN push_setting setting ON setting.is_on`
}

/** Takes a message off the queue, unless there was more to tell meanwhile; then that is due now. */
export async function finishPush(tx: Transaction, { id, madeAt }: DuePush, now: Date): Promise<void> {
  const { count } = await tx.pushMessage.deleteMany({ where: { id, madeAt } })
  if (count === 0) await tx.pushMessage.updateMany({ where: { id }, data: { dueAt: now, tries: 0 } })
}

export async function postponePush(tx: Transaction, { id }: DuePush, dueAt: Date): Promise<void> {
  await tx.pushMessage.updateMany({ where: { id }, data: { dueAt } })
}

/** The push service knows this subscription no more. */
export async function forgetSubscription(tx: Transaction, { subscriptionId }: DuePush): Promise<void> {
  await tx.pushSubscription.deleteMany({ where: { id: subscriptionId } })
}

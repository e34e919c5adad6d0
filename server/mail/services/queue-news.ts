import type { Context } from '../../context/context.ts'
import type { Transaction } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Role } from '../../domain/access/actor.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { type MailTiming, mailKindOf, timingOf } from '../../domain/mail/mail-kinds.ts'
import { nextMorning } from '../../domain/mail/mornings.ts'
import { type Addressee, listAddressees } from '../db/mail-addresses.db.ts'
import { type FreshNotice, listFresh, markNotices, tryNoticeLock } from '../db/mail-notices.db.ts'
import { openDaily, queueMail } from '../db/mail-queue.db.ts'

/** What is older is no news, such as when mail was off for a while. */
const NEWS_MS = 24 * 3_600_000

/** Puts notices that nobody was told of by mail into the queue: at once, or into the daily mail of the next morning. */
export async function queueNews(context: Context): Promise<void> {
  const { mail, clock, db, timeZone } = context
  if (mail === null) return
  const now = clock()
  const here = { today: dayInZone(now.getTime(), timeZone), timeZone }
  await inTransaction(db, async (tx) => {
    if (!(await tryNoticeLock(tx))) return
    const fresh = await listFresh(tx, new Date(now.getTime() - NEWS_MS), here.today)
    if (fresh.length === 0) return
    const ids = [...new Set(fresh.map(({ accountId }) => accountId))]
    for (const addressee of await listAddressees(tx, here, ids)) {
      const own = fresh.filter(({ accountId }) => accountId === addressee.accountId)
      await queueFor(tx, addressee, own, now, mail.hour)
    }
  })
}

async function queueFor(
  tx: Transaction,
  { accountId, roles, choices, zone }: Addressee,
  fresh: readonly FreshNotice[],
  now: Date,
  hour: number,
): Promise<void> {
  const at = (timing: MailTiming) =>
    fresh
      .filter(({ kind }) => timingOf(mailKindOf(kind), roles as Role[], choices) === timing)
      .map(({ noticeId }) => noticeId)
  await markNotices(tx, accountId, at('never'), null)
  const atOnce = at('at once')
  if (atOnce.length > 0) {
    await markNotices(tx, accountId, atOnce, await queueMail(tx, { accountId, kind: 'news', at: now, dueAt: now }))
  }
  const daily = at('daily')
  if (daily.length === 0) return
  const morning = nextMorning(now.getTime(), hour, zone)
  const mail = { accountId, kind: 'daily' as const, at: now, dueAt: new Date(morning.at), forDay: morning.day }
  const id = await openDaily(tx, mail)
  // Where the one of that morning is on its way already, they are looked at again.
  if (id !== null) await markNotices(tx, accountId, daily, id)
}

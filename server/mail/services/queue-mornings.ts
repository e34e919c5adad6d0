import type { Context } from '../../context/context.ts'
import type { Role } from '../../domain/access/actor.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { timingOf } from '../../domain/mail/mail-kinds.ts'
import { isMonday, morningSince } from '../../domain/mail/mornings.ts'
import { listAddressees } from '../db/mail-addresses.db.ts'
import { deleteOldMarks } from '../db/mail-notices.db.ts'
import { deleteOldMails, queueMail } from '../db/mail-queue.db.ts'

const DAY_MS = 86_400_000
const DONE_KEPT_DAYS = 7
const FAILED_KEPT_DAYS = 30

/**
 * Where the morning has come by the clock of the unit, queues the daily mail of those told of lapses and on Mondays the week's,
 * each once a day however often this runs and on however many servers; and forgets mails that are done since long.
 */
export async function queueMornings({ mail, clock, db, timeZone }: Context): Promise<void> {
  const now = clock()
  const before = (days: number) => new Date(now.getTime() - days * DAY_MS)
  await deleteOldMails(db, { done: before(DONE_KEPT_DAYS), failed: before(FAILED_KEPT_DAYS) })
  await deleteOldMarks(db, before(DONE_KEPT_DAYS))
  if (mail === null) return
  const here = { today: dayInZone(now.getTime(), timeZone), timeZone }
  for (const { accountId, roles, choices, zone } of await listAddressees(db, here, null)) {
    const morning = morningSince(now.getTime(), mail.hour, zone)
    if (morning === null) continue
    const wants = (kind: 'lapses' | 'week') => timingOf(kind, roles as Role[], choices) !== 'never'
    const one = { accountId, at: now, dueAt: now, forDay: morning.day }
    if (wants('lapses')) await queueMail(db, { ...one, kind: 'daily' })
    if (isMonday(morning.day) && wants('week')) await queueMail(db, { ...one, kind: 'weekly' })
  }
}

import { hashToken, newToken } from '../../accounts/services/token.ts'
import type { Context } from '../../context/context.ts'
import type { CalendarLink, CalendarLinkState } from '../../contract/calendar/calendar.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { recorded } from '../../record/services/recorded.ts'
import { deleteCalendarLink, readCalendarLink, replaceCalendarLink } from '../db/calendar-links.db.ts'

/** Whether the account has a calendar link. */
export async function getCalendarLink(context: Context, actor: Actor): Promise<CalendarLinkState> {
  const link = await readCalendarLink(context.db, actor.accountId)
  return { createdAt: link?.createdAt.toISOString() ?? null }
}

/** Makes a new secret link, told this once; an earlier one ends. */
export async function makeCalendarLink(context: Context, actor: Actor): Promise<CalendarLink> {
  const token = newToken()
  const now = context.clock()
  return recorded(context, actor, async (tx, note) => {
    await replaceCalendarLink(tx, actor.accountId, hashToken(token), now)
    note({ action: 'calendar.link-made', subject: { kind: 'account', id: actor.accountId } })
    return { token, createdAt: now.toISOString() }
  })
}

/** Ends the link; without one nothing happens. */
export async function revokeCalendarLink(context: Context, actor: Actor): Promise<void> {
  await recorded(context, actor, async (tx, note) => {
    if (!(await deleteCalendarLink(tx, actor.accountId))) return
    note({ action: 'calendar.link-revoked', subject: { kind: 'account', id: actor.accountId } })
  })
}

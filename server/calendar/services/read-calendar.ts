import { toActor } from '../../accounts/services/sessions/to-actor.ts'
import { hashToken, isToken } from '../../accounts/services/token.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { scopeOf } from '../../domain/access/scope.ts'
import type { CalendarEvent } from '../../domain/calendar/calendar-event.ts'
import { notFound } from '../../errors.ts'
import { findWaiting } from '../../readiness/services/words/find-words.ts'
import {
  listAwardEvents,
  listOwnCeremonyEvents,
  listRetestEvents,
  listTestDayEvents,
  listTestEvents,
  listUnitCeremonyEvents,
} from '../db/calendar-events.db.ts'
import { readCalendarOwner } from '../db/calendar-links.db.ts'
import { calendarSpan } from './calendar-span.ts'
import { writeCalendar } from './write-calendar.ts'

/**
 * What concerns the owner of a calendar link: tests they take, grade or have a candidate in, open retests, what commanders say of
 * their certifications, ceremonies they are named to; for leaders and commanders those of their unit, for the office all, and every
 * test day; for commanders how many certifications wait for them today. Nobody else's name is in it, for it is kept by programs outside. Each event once. Throws not-found for a token that is nobody's.
 */
export async function readCalendar(context: Context, token: string, origin: string): Promise<string> {
  const owner = isToken(token) ? await readCalendarOwner(context.db, hashToken(token)) : null
  if (!owner) throw notFound('calendar')
  const { db } = context
  const { roles, soldierId, unitId } = owner
  const day = await today(context, unitId ?? undefined)
  const span = calendarSpan(day)
  const isOffice = roles.includes('office')
  const leads = unitId !== null && (roles.includes('leader') || roles.includes('commander'))
  const lists: Promise<CalendarEvent[]>[] = []
  if (soldierId !== null) {
    const own = { soldierId, ...span }
    const asSponsor = roles.includes('sponsor')
    lists.push(
      listTestEvents(db, own, asSponsor),
      listRetestEvents(db, own, asSponsor),
      listAwardEvents(db, own),
      listOwnCeremonyEvents(db, own),
    )
  }
  if (isOffice) lists.push(listTestDayEvents(db, span, scopeOf(toActor(owner), day)))
  if (isOffice || leads) lists.push(listUnitCeremonyEvents(db, span, isOffice ? null : unitId))
  if (roles.includes('commander')) lists.push(waitingEvents(context, toActor(owner), day))
  const events = new Map((await Promise.all(lists)).flat().map((event) => [event.id, event]))
  const inOrder = [...events.values()].sort((a, b) => (a.day + a.id < b.day + b.id ? -1 : 1))
  return writeCalendar(inOrder, context.clock(), origin)
}

/** So many are counted; beyond it the figure says "or more". */
const MOST_COUNTED = 500

/** One entry on today for all certifications that wait for a commander; none where none does. */
async function waitingEvents(context: Context, actor: Actor, day: string): Promise<CalendarEvent[]> {
  const { items, next } = await findWaiting(context, actor, { limit: MOST_COUNTED })
  const count = items.filter(({ soldierId }) => soldierId !== actor.soldierId).length
  if (count === 0) return []
  const many = `${count}${next === null ? '' : ' or more'}`
  const title =
    count === 1 ? 'A certification waits for your approval' : `${many} certifications wait for your approval`
  const whole = { place: '', startsAt: null, endsAt: null, note: '', cancelled: false }
  return [{ id: 'approvals', title, day, path: '/approvals', ...whole }]
}

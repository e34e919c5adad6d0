import { hashToken, isToken } from '../../accounts/services/token.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { CalendarEvent } from '../../domain/calendar/calendar-event.ts'
import { addDays } from '../../domain/calendar/plain-date.ts'
import { notFound } from '../../errors.ts'
import {
  listOwnCeremonyEvents,
  listRetestEvents,
  listTestDayEvents,
  listTestEvents,
  listUnitCeremonyEvents,
} from '../db/calendar-events.db.ts'
import { readCalendarOwner } from '../db/calendar-links.db.ts'
import { writeCalendar } from './write-calendar.ts'

const BACK_DAYS = 60
const AHEAD_DAYS = 400

/**
 * What concerns the owner of a calendar link: tests they take, grade or have a candidate in, open retests, ceremonies they
 * are named to; for leaders and commanders those of their unit, for the office all, and every test day. Nobody else's name
 * is in it, for it is kept by programs outside. Each event once. Throws not-found for a token that is nobody's.
 */
export async function readCalendar(context: Context, token: string, origin: string): Promise<string> {
  const owner = isToken(token) ? await readCalendarOwner(context.db, hashToken(token)) : null
  if (!owner) throw notFound('calendar')
  const { db } = context
  const { roles, soldierId, unitId } = owner
  const day = await today(context, unitId ?? undefined)
  const span = { today: day, from: addDays(day, -BACK_DAYS), to: addDays(day, AHEAD_DAYS) }
  const isOffice = roles.includes('office')
  const leads = unitId !== null && (roles.includes('leader') || roles.includes('commander'))
  const lists: Promise<CalendarEvent[]>[] = []
  if (soldierId !== null) {
    const own = { soldierId, ...span }
    const asSponsor = roles.includes('sponsor')
    lists.push(listTestEvents(db, own, asSponsor), listRetestEvents(db, own, asSponsor), listOwnCeremonyEvents(db, own))
  }
  if (isOffice) lists.push(listTestDayEvents(db, span))
  if (isOffice || leads) lists.push(listUnitCeremonyEvents(db, span, isOffice ? null : unitId))
  const events = new Map((await Promise.all(lists)).flat().map((event) => [event.id, event]))
  const inOrder = [...events.values()].sort((a, b) => (a.day + a.id < b.day + b.id ? -1 : 1))
  return writeCalendar(inOrder, context.clock(), origin)
}

import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listTestDayEvents } from '../db/calendar-events.db.ts'
import { calendarSpan } from './calendar-span.ts'
import { writeCalendar } from './write-calendar.ts'

/** The test days an account may see, in order, as RFC 5545 text. In: the address of this server. Nobody is named in it. */
export async function getTestDayCalendar(context: Context, actor: Actor, origin: string): Promise<string> {
  const scope = await scopeFor(context, actor)
  const events = await listTestDayEvents(context.db, calendarSpan(scope.today), scope)
  return writeCalendar(events, context.clock(), origin)
}

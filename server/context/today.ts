import { readSoldierTimeZone, readTimeZone, readTopTimeZone } from '../access/db/units.db.ts'
import { dayInZone } from '../domain/calendar/day-in-zone.ts'
import type { Context } from './context.ts'

/** Today in the zone of a soldier's unit. */
export async function todayOfSoldier(context: Context, soldierId: string): Promise<string> {
  const now = context.clock().getTime()
  const zone = await readSoldierTimeZone(context.db, soldierId, dayInZone(now, 'UTC'))
  return dayInZone(now, zone ?? context.timeZone)
}

/** Today in a unit's zone; without a unit, in the zone at the top of the tree. */
export async function today(context: Context, unitId?: string): Promise<string> {
  const zone = unitId ? await readTimeZone(context.db, unitId) : await readTopTimeZone(context.db)
  return dayInZone(context.clock().getTime(), zone ?? context.timeZone)
}

import { dayInZone } from '#calendar/day-in-zone.ts'
import { unitZone } from './unit-zone.ts'

/** Today, `YYYY-MM-DD`, in an IANA time zone; without one in that of the unit. */
export const today = (timeZone?: string | null, now = new Date()): string =>
  dayInZone(now.getTime(), timeZone ?? unitZone())

import { dayInZone } from '#calendar/day-in-zone.ts'
import { sayDay } from './say-day.ts'
import { sayTime } from './say-time.ts'
import { unitZone } from './unit-zone.ts'

/** An instant as lists have it, in the zone of the unit: "Sat 5 Dec, 09:31". */
export const sayMoment = (instant: string, today: string): string =>
  `${sayDay(dayInZone(instant, unitZone()), today)}, ${sayTime(instant)}`

import { dayInZone } from '#calendar/day-in-zone.ts'
import { sayDay } from './say-day.ts'
import { sayTime } from './say-time.ts'
import { deviceZone } from './today.ts'

/** An instant as lists have it, in the zone of this device: "Sat 5 Dec, 09:31". */
export const sayMoment = (instant: string, today: string): string =>
  `${sayDay(dayInZone(instant, deviceZone()), today)}, ${sayTime(instant, null)}`

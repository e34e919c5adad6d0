import { dayInZone } from '#calendar/day-in-zone.ts'
import { formatDay } from './format-day.ts'
import { formatTime } from './format-time.ts'
import { unitZone } from './unit-zone.ts'

/** An instant as lists have it, in the zone of the unit: "Sat 5 Dec, 09:31". */
export const formatMoment = (instant: string, today: string): string =>
  `${formatDay(dayInZone(instant, unitZone()), today)}, ${formatTime(instant)}`

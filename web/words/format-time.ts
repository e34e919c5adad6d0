import { clockTime } from './clock-time.ts'
import { formatZone } from './format-zone.ts'
import { unitZone } from './unit-zone.ts'

/**
 * The clock time of an instant in a zone, of the unit without one; another zone is named where its clock differs from that of
 * the unit, which the frame of the pages names once: "09:31", "07:31 Denver time".
 */
export const formatTime = (instant: string, timeZone?: string | null): string => {
  const time = clockTime(instant, timeZone)
  return timeZone && time !== clockTime(instant, unitZone()) ? `${time} ${formatZone(timeZone)}` : time
}

import { clockTime } from './clock-time.ts'
import { deviceZone, unitZone } from './unit-zone.ts'

/** What a zone is called where a clock time is named: "New York time". */
export const formatZone = (timeZone: string): string =>
  `${(timeZone.split('/').at(-1) ?? timeZone).replaceAll('_', ' ')} time`

/** Whether this device's clock shows another time at an instant than the clocks of a zone. */
export const differsFromDevice = (instant: string, timeZone: string, device = deviceZone()): boolean =>
  clockTime(instant, timeZone) !== clockTime(instant, device)

/** The clock time of an instant in a zone, of the unit without one, named where this device's clock differs: "09:31 New York time". */
export const formatUnitTime = (instant: string, timeZone?: string | null, device = deviceZone()): string => {
  const zone = timeZone ?? unitZone()
  const time = clockTime(instant, zone)
  return differsFromDevice(instant, zone, device) ? `${time} ${formatZone(zone)}` : time
}

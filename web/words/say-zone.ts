import { sayTime } from './say-time.ts'
import { deviceZone } from './today.ts'

/** What a zone is called where a clock time is named: "New York time". */
const nameOf = (timeZone: string): string => `${(timeZone.split('/').at(-1) ?? timeZone).replaceAll('_', ' ')} time`

/** Whether this device's clock shows another time at an instant than the clocks of a zone. */
export const differsFromDevice = (instant: string, timeZone: string, device = deviceZone()): boolean =>
  sayTime(instant, timeZone) !== sayTime(instant, device)

/** The clock time of an instant in the zone of the unit, which is named where this device's clock differs: "09:31 New York time". */
export const sayUnitTime = (instant: string, timeZone: string | null | undefined, device = deviceZone()): string =>
  timeZone && differsFromDevice(instant, timeZone, device)
    ? `${sayTime(instant, timeZone)} ${nameOf(timeZone)}`
    : sayTime(instant, timeZone ?? device)

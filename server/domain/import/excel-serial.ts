import { fromEpochDay, toEpochDay } from '../calendar/plain-date.ts'

/** Where the days of a spreadsheet are counted from: 1 January 1900 is day 1, or 1 January 1904 is day 0. */
export type DateSystem = 1900 | 1904

const MINUTES_A_DAY = 1440
/** Day 60 of the 1900 system is 29 February 1900, which never was; all later days are one too high. */
const NO_SUCH_DAY = 60
const LAST_DAY = 2_958_465

/**
 * The day and time of a spreadsheet's serial number: `YYYY-MM-DD`, `YYYY-MM-DDTHH:MM`, or `HH:MM` for a bare time
 * (below one day). Null for a number that is no date: negative, past 9999, or day 60 of the 1900 system.
 * Source: ECMA-376-1:2016, 18.17.4.1 (date systems and the leap year 1900).
 */
export function excelSerialToIso(serial: number, system: DateSystem): string | null {
  if (!(serial >= 0) || serial > LAST_DAY) return null
  const minutes = Math.round((serial % 1) * MINUTES_A_DAY)
  const day = Math.floor(serial) + (minutes === MINUTES_A_DAY ? 1 : 0)
  const time = minutes % MINUTES_A_DAY
  const clock = `${two(Math.floor(time / 60))}:${two(time % 60)}`
  if (day === 0 && (system === 1900 || serial > 0)) return clock
  if (system === 1900 && day === NO_SUCH_DAY) return null
  const date = system === 1904 ? since('1904-01-01', day) : since('1899-12-31', day > NO_SUCH_DAY ? day - 1 : day)
  return time === 0 ? date : `${date}T${clock}`
}

const since = (start: string, days: number): string => fromEpochDay(toEpochDay(start) + days)
const two = (number: number): string => String(number).padStart(2, '0')

import { dayInZone } from '../calendar/day-in-zone.ts'
import { addDays, type PlainDate, toEpochDay } from '../calendar/plain-date.ts'
import { instantInZone } from '../calendar/zoned-instant.ts'

/** A morning of a zone: its day, and the instant at which mail of that day goes out. */
export interface Morning {
  readonly day: PlainDate
  readonly at: number
}

const morningOf = (day: PlainDate, hour: number, timeZone: string): Morning => ({
  day,
  at: instantInZone(day, hour * 60, timeZone),
})

/** The first morning after an instant. In: milliseconds since 1970, the hour by the clock on the wall, an IANA zone. */
export function nextMorning(now: number, hour: number, timeZone: string): Morning {
  const today = morningOf(dayInZone(now, timeZone), hour, timeZone)
  return today.at > now ? today : morningOf(addDays(today.day, 1), hour, timeZone)
}

/** The morning of today, where it has come; null before its hour. */
export function morningSince(now: number, hour: number, timeZone: string): Morning | null {
  const today = morningOf(dayInZone(now, timeZone), hour, timeZone)
  return today.at <= now ? today : null
}

/** 1970-01-01 was a Thursday. */
export const isMonday = (day: PlainDate): boolean => (((toEpochDay(day) + 3) % 7) + 7) % 7 === 0

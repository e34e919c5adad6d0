import { fromEpochMilliseconds, toZonedDateTimeISO } from 'temporal-polyfill/fns/Instant'
import {
  addMinutes,
  create,
  equals,
  type Record as LocalTime,
  toZonedDateTime,
} from 'temporal-polyfill/fns/PlainDateTime'
import { toPlainDateTime, toString as toText, type Record as ZonedTime } from 'temporal-polyfill/fns/ZonedDateTime'
import type { PlainDate } from './plain-date.ts'

/**
 * The instant of a clock time on a day in a time zone, RFC 3339 with the zone's offset: "2026-03-02T09:31:00-05:00".
 * In: a day, a time "09:31", an IANA zone. A time that the change to summer time leaves out counts from the offset before
 * it (02:30 is 03:30); of one that the change back brings twice it is the first. As RFC 5545 and Temporal ("compatible").
 */
export const zonedInstant = (day: PlainDate, clock: string, timeZone: string): string =>
  asText(toZonedDateTime(localTime(day, clock), timeZone))

/** The same in milliseconds since 1970, of minutes since the day's midnight by the clock on the wall. */
export function instantInZone(day: PlainDate, minutes: number, timeZone: string): number {
  return Date.parse(asText(toZonedDateTime(addMinutes(localTime(day, '00:00'), minutes), timeZone)))
}

/** Whether the clock on the wall of a zone leaves a time out that day, or shows it twice; null: neither. */
export function clockChange(day: PlainDate, clock: string, timeZone: string): 'left out' | 'twice' | null {
  const local = localTime(day, clock)
  const [earlier, later] = (['earlier', 'later'] as const).map((disambiguation) =>
    toZonedDateTime(local, timeZone, { disambiguation }),
  )
  if (asText(earlier!) === asText(later!)) return null
  return equals(toPlainDateTime(earlier!), local) ? 'twice' : 'left out'
}

/** The instant (milliseconds since 1970) as a zone writes it, RFC 3339 with its offset and whole seconds. */
export const textInZone = (instant: number, timeZone: string): string =>
  toText(inZone(instant, timeZone), { timeZoneName: 'never', smallestUnit: 'second' })

/** Minutes since midnight by the clock on the wall of a zone, of an instant in milliseconds since 1970. */
export function minuteInZone(instant: number, timeZone: string): number {
  const { hour, minute } = toPlainDateTime(inZone(instant, timeZone))
  return hour * 60 + minute
}

const inZone = (instant: number, timeZone: string): ZonedTime =>
  toZonedDateTimeISO(fromEpochMilliseconds(instant), timeZone)

function localTime(day: PlainDate, clock: string): LocalTime {
  const [year, month, date] = day.split('-').map(Number) as [number, number, number]
  const [hour, minute] = clock.split(':').map(Number) as [number, number]
  return create(year, month, date, hour, minute)
}

const asText = (time: ZonedTime): string => toText(time, { timeZoneName: 'never' })

import { Temporal } from 'temporal-polyfill'

/**
 * The instant of a clock time on a day in a time zone, RFC 3339 with the zone's offset: "2026-03-02T09:31:00-05:00".
 * A time that the spring change of clocks leaves out counts from the offset before it; of one that autumn brings twice it is the first.
 */
export const zonedInstant = (day: string, clock: string, timeZone: string): string =>
  Temporal.PlainDateTime.from(`${day}T${clock}`).toZonedDateTime(timeZone).toString({ timeZoneName: 'never' })

/** The clock time, "09:31", of an instant in a time zone. */
export const zonedClock = (instant: string, timeZone: string): string =>
  Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone).toPlainTime().toString({ smallestUnit: 'minute' })

import { create, toZonedDateTime } from 'temporal-polyfill/fns/PlainDateTime'
import { toString as toText } from 'temporal-polyfill/fns/ZonedDateTime'

/**
 * The instant of a clock time on a day in a time zone, RFC 3339 with the zone's offset: "2026-03-02T09:31:00-05:00".
 * A time that the spring change of clocks leaves out counts from the offset before it; of one that autumn brings twice it is the first.
 */
export const zonedInstant = (day: string, clock: string, timeZone: string): string => {
  const [year, month, date] = day.split('-').map(Number) as [number, number, number]
  const [hour, minute] = clock.split(':').map(Number) as [number, number]
  return toText(toZonedDateTime(create(year, month, date, hour, minute), timeZone), { timeZoneName: 'never' })
}

import type { PlainDate } from './plain-date.ts'
import { toMillis } from './to-millis.ts'

const formats = new Map<string, Intl.DateTimeFormat>()

/**
 * The calendar day of an instant in a time zone.
 * In: an instant (RFC 3339 text, or milliseconds since 1970), an IANA zone name. Throws a RangeError for an unknown zone.
 */
export function dayInZone(instant: string | number, timeZone: string): PlainDate {
  let format = formats.get(timeZone)
  if (!format) {
    format = new Intl.DateTimeFormat('en', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' })
    formats.set(timeZone, format)
  }
  const part: Record<string, string> = {}
  for (const { type, value } of format.formatToParts(typeof instant === 'string' ? toMillis(instant) : instant))
    part[type] = value
  return `${part.year!.padStart(4, '0')}-${part.month}-${part.day}`
}

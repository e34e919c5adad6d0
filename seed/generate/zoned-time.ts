import type { PlainDate } from '../../server/domain/calendar/plain-date.ts'

const MINUTE = 60_000
const formats = new Map<string, Intl.DateTimeFormat>()

/** Minutes by which a zone is ahead of UTC at an instant, by the time zone database of Node. */
function offsetAt(instant: number, timeZone: string): number {
  let format = formats.get(timeZone)
  if (!format) {
    format = new Intl.DateTimeFormat('en', { timeZone, timeZoneName: 'longOffset' })
    formats.set(timeZone, format)
  }
  const name = format.formatToParts(instant).find(({ type }) => type === 'timeZoneName')!.value
  const [, sign, hours, minutes] = /GMT(?:([+-])(\d\d):(\d\d))?/.exec(name)!
  return sign === undefined ? 0 : Number(`${sign}1`) * (Number(hours) * 60 + Number(minutes))
}

/**
 * The instant of a local time, in milliseconds since 1970.
 * In: a day, minutes since its midnight by the clock on the wall, an IANA zone. A time that the wall clock skips in
 * spring or shows twice in autumn comes out as one of the instants next to it.
 */
export function instantAt(day: PlainDate, minutes: number, timeZone: string): number {
  const asUtc = Date.parse(`${day}T00:00:00Z`) + minutes * MINUTE
  const guess = asUtc - offsetAt(asUtc, timeZone) * MINUTE
  return asUtc - offsetAt(guess, timeZone) * MINUTE
}

/** An instant as RFC 3339 with the offset of a zone: `2026-03-02T09:31:00-05:00`. */
export function withOffset(instant: number, timeZone: string): string {
  const offset = offsetAt(instant, timeZone)
  const local = new Date(instant + offset * MINUTE).toISOString().slice(0, 19)
  const two = (number: number) => String(number).padStart(2, '0')
  const size = Math.abs(offset)
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`
}

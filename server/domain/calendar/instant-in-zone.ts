import { offsetInZone } from './offset-in-zone.ts'
import type { PlainDate } from './plain-date.ts'

const MINUTE = 60_000

/**
 * The instant of a local time, in milliseconds since 1970.
 * In: a day, minutes since its midnight by the clock on the wall, an IANA zone. A time that the wall clock skips in
 * spring or shows twice in autumn comes out as one of the instants next to it.
 */
export function instantInZone(day: PlainDate, minutes: number, timeZone: string): number {
  const asUtc = Date.parse(`${day}T00:00:00Z`) + minutes * MINUTE
  const guess = asUtc - offsetInZone(asUtc, timeZone) * MINUTE
  return asUtc - offsetInZone(guess, timeZone) * MINUTE
}

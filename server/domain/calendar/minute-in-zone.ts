import { offsetInZone } from './offset-in-zone.ts'

const MINUTE = 60_000
const DAY = 24 * 60 * MINUTE

/** Minutes since midnight by the clock on the wall of a zone, of an instant in milliseconds since 1970. */
export function minuteInZone(instant: number, timeZone: string): number {
  const local = instant + offsetInZone(instant, timeZone) * MINUTE
  return Math.floor((((local % DAY) + DAY) % DAY) / MINUTE)
}

import { unitZone } from './unit-zone.ts'

/** The clock time of an instant in an IANA time zone (of the unit without one), for a field or a comparison: "09:31". */
export const clockTime = (instant: string, timeZone?: string | null): string =>
  new Intl.DateTimeFormat('en-GB', { timeZone: timeZone ?? unitZone(), hour: '2-digit', minute: '2-digit' }).format(
    new Date(instant),
  )

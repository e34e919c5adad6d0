import { dayInZone } from '#calendar/day-in-zone.ts'

/** The zone of this device, for units that name none. */
export const deviceZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone

/** Today, `YYYY-MM-DD`, in an IANA time zone; without one in that of this device. */
export const today = (timeZone?: string | null, now = new Date()): string =>
  dayInZone(now.getTime(), timeZone ?? deviceZone())

import type { PlainDate } from '../calendar/plain-date.ts'

const WEEKDAY = new Intl.DateTimeFormat('en-GB', { weekday: 'short', timeZone: 'UTC' })
const DATE = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' })

/** A date in a mail, which may be read long after: "Sat 5 December 2026". */
export function dayInMail(day: PlainDate): string {
  const date = new Date(`${day}T00:00:00Z`)
  return `${WEEKDAY.format(date)} ${DATE.format(date)}`
}

/** With the clock time of an instant by a zone's clock, 24 hours: "Sat 5 December 2026 at 09:30". */
export function momentInMail(day: PlainDate, startsAt: string | null, timeZone: string): string {
  if (startsAt === null) return dayInMail(day)
  const time = new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' })
  return `${dayInMail(day)} at ${time.format(new Date(startsAt))}`
}

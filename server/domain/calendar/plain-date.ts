/** A calendar date without time or zone, `YYYY-MM-DD`; sorts as text. */
export type PlainDate = string

const DAY = 86_400_000

/** Days since 1970-01-01; negative before it. */
export function toEpochDay(date: PlainDate): number {
  return Math.round(Date.parse(`${date}T00:00:00Z`) / DAY)
}

/** The date `days` after 1970-01-01. */
export function fromEpochDay(days: number): PlainDate {
  return new Date(days * DAY).toISOString().slice(0, 10)
}

/** The date so many days later (earlier when negative). */
export function addDays(date: PlainDate, days: number): PlainDate {
  return fromEpochDay(toEpochDay(date) + days)
}

/** Days from one date to another; negative when `to` lies before `from`. */
export function daysBetween(from: PlainDate, to: PlainDate): number {
  return toEpochDay(to) - toEpochDay(from)
}

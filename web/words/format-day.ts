import { daysBetween } from '#calendar/plain-date.ts'

/** The long names of months or weekdays, each by an instant in it. */
const namesOf = (part: 'month' | 'weekday', instants: readonly number[]): string[] => {
  const format = new Intl.DateTimeFormat('en-GB', { [part]: 'long', timeZone: 'UTC' })
  return instants.map((instant) => format.format(instant))
}

/** From January on. */
export const MONTHS = namesOf(
  'month',
  Array.from({ length: 12 }, (_, month) => Date.UTC(2000, month, 1)),
)
/** From Sunday on, as 2 January 2000 was one. */
const WEEKDAYS = namesOf(
  'weekday',
  Array.from({ length: 7 }, (_, day) => Date.UTC(2000, 0, 2 + day)),
)

/** Within so many days a weekday helps; in a sentence there is room for it somewhat longer. */
const NEAR_DAYS = 14
const NEAR_DAYS_IN_A_SENTENCE = 60

const parts = (day: string) => {
  const date = new Date(`${day}T00:00:00Z`)
  return {
    year: date.getUTCFullYear(),
    month: MONTHS[date.getUTCMonth()] ?? '',
    date: date.getUTCDate(),
    weekday: WEEKDAYS[date.getUTCDay()] ?? '',
  }
}

/**
 * A date for lists, from `YYYY-MM-DD`: with the weekday when it is within two weeks of `today` ("Sat 5 Dec"), with the
 * year when that is another one ("14 Mar 2027"), else "5 Dec".
 */
export const formatDay = (day: string, today: string): string => {
  const { year, month, date, weekday } = parts(day)
  const short = `${date} ${month.slice(0, 3)}`
  if (Math.abs(daysBetween(today, day)) <= NEAR_DAYS) return `${weekday.slice(0, 3)} ${short}`
  return year === parts(today).year ? short : `${short} ${year}`
}

/** A date for sentences: "Saturday 5 December", with the year when that is another one, without the weekday when it is far. */
export const formatDayInFull = (day: string, today: string): string => {
  const { year, month, date, weekday } = parts(day)
  if (Math.abs(daysBetween(today, day)) <= NEAR_DAYS_IN_A_SENTENCE) return `${weekday} ${date} ${month}`
  return year === parts(today).year ? `${date} ${month}` : `${date} ${month} ${year}`
}

/** A date for paper that hangs on a wall for long: "25 November 2026". */
export const formatDayWithYear = (day: string): string => {
  const { year, month, date } = parts(day)
  return `${date} ${month} ${year}`
}

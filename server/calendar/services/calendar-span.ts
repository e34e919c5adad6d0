import { addDays, type PlainDate } from '../../domain/calendar/plain-date.ts'

const BACK_DAYS = 60
const AHEAD_DAYS = 400

/** The days that calendars tell of, around today: two months back, and more than a year ahead. */
export const calendarSpan = (today: PlainDate): { today: PlainDate; from: PlainDate; to: PlainDate } => ({
  today,
  from: addDays(today, -BACK_DAYS),
  to: addDays(today, AHEAD_DAYS),
})

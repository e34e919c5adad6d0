import type { PlainDate } from '../../../../server/domain/calendar/plain-date.ts'

/** The year, month and day that a day is counted in. */
export function tallyKeys(day: PlainDate): { grain: 'year' | 'month' | 'day'; start: PlainDate }[] {
  return [
    { grain: 'year', start: `${day.slice(0, 4)}-01-01` },
    { grain: 'month', start: `${day.slice(0, 7)}-01` },
    { grain: 'day', start: day },
  ]
}

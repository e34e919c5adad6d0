import type { PlainDate } from './plain-date.ts'

/**
 * The date so many months later: the day of the month is kept, and clamped to the end of a shorter month.
 * Example: 31 August and 6 months give 28 or 29 February. As `Temporal.PlainDate.add` with overflow "constrain".
 */
export function addMonths(date: PlainDate, months: number): PlainDate {
  const [year, month, day] = date.split('-').map(Number) as [number, number, number]
  const lastOfTarget = new Date(Date.UTC(year, month + months, 0))
  const target = new Date(lastOfTarget)
  target.setUTCDate(Math.min(day, lastOfTarget.getUTCDate()))
  return target.toISOString().slice(0, 10)
}

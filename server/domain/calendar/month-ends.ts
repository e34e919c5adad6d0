import { monthsBetween } from './months-between.ts'
import type { PlainDate } from './plain-date.ts'

/**
 * The days a course of months is looked at: the last day of every month from `from` on that is over before `to`, then `to`.
 * Example: 2025-12-15 to 2026-03-10 gives 2025-12-31, 2026-01-31, 2026-02-28, 2026-03-10. Empty where `to` lies before `from`.
 */
export function monthEnds(from: PlainDate, to: PlainDate): PlainDate[] {
  if (to < from) return []
  const ends = monthsBetween(from.slice(0, 7), to.slice(0, 7)).map((month) => {
    const [year, number] = month.split('-').map(Number) as [number, number]
    return new Date(Date.UTC(year, number, 0)).toISOString().slice(0, 10)
  })
  return [...ends.filter((day) => day < to), to]
}

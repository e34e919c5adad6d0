import type { PlainDate } from '../../server/domain/calendar/plain-date.ts'

/** The latest of some days. */
export const laterDay = (...days: [PlainDate, ...PlainDate[]]): PlainDate => days.toSorted().at(-1)!

/** The earliest of some days. */
export const earlierDay = (...days: [PlainDate, ...PlainDate[]]): PlainDate => days.toSorted()[0]!

/** The first of some ends of a time; null where none of them ends. */
export const firstEnd = (...ends: (PlainDate | null)[]): PlainDate | null =>
  ends.filter((end) => end !== null).toSorted()[0] ?? null

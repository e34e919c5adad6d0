import { addDays, type PlainDate } from '../calendar/plain-date.ts'

/** Neighbouring years, months or days, by the first day of the first and of the last of them. */
export interface PeriodRange {
  readonly grain: 'year' | 'month' | 'day'
  readonly first: PlainDate
  readonly last: PlainDate
}

const DAWN: PlainDate = '0001-01-01'
const DUSK: PlainDate = '9999-12-31'

/**
 * The fewest whole years, months and days that make up the days from `from` to `to`, both inclusive; null is no limit.
 * So a period of any length is at most five ranges. Empty where `to` lies before `from`.
 */
export function coverPeriod(from: PlainDate | null, to: PlainDate | null): PeriodRange[] {
  const start = from ?? DAWN
  const end = to ?? DUSK
  return start > end ? [] : cover('year', start, end)
}

const INNER = { year: 'month', month: 'day' } as const

function cover(grain: 'year' | 'month' | 'day', from: PlainDate, to: PlainDate): PeriodRange[] {
  if (from > to) return []
  if (grain === 'day') return [{ grain, first: from, last: to }]
  const first = from === startOf(grain, from) ? from : startAfter(grain, from)
  const endsWhole = to === DUSK || startOf(grain, addDays(to, 1)) === addDays(to, 1)
  const afterLast = endsWhole ? (to === DUSK ? DUSK : addDays(to, 1)) : startOf(grain, to)
  if (first >= afterLast) return cover(INNER[grain], from, to)
  const last = to === DUSK ? DUSK : startOf(grain, addDays(afterLast, -1))
  return [
    ...(from === first ? [] : cover(INNER[grain], from, addDays(first, -1))),
    { grain, first, last },
    ...(endsWhole ? [] : cover(INNER[grain], afterLast, to)),
  ]
}

function startOf(grain: 'year' | 'month', day: PlainDate): PlainDate {
  return grain === 'year' ? `${day.slice(0, 4)}-01-01` : `${day.slice(0, 7)}-01`
}

function startAfter(grain: 'year' | 'month', day: PlainDate): PlainDate {
  const [year, month] = day.split('-').map(Number) as [number, number]
  const next = grain === 'year' || month === 12 ? [year + 1, 1] : [year, month + 1]
  return `${String(next[0]).padStart(4, '0')}-${String(next[1]).padStart(2, '0')}-01`
}

import type { PeriodRange } from './cover-period.ts'

/** The same days with every whole year as its twelve months. */
export function inMonths(periods: readonly PeriodRange[]): PeriodRange[] {
  return periods.map(({ grain, first, last }) =>
    grain === 'year' ? { grain: 'month', first, last: `${last.slice(0, 4)}-12-01` } : { grain, first, last },
  )
}

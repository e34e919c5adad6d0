import type { OutlookItem } from '#contract/ceremonies/outlooks.ts'
import { formatDay } from '../../words/format-day.ts'
import { listed } from '../../words/format-number.ts'

/** The tests on the way, and that all hangs on passing: "if passed: Marching manual, booked Wed 2 Dec". */
export const formatWay = (
  way: NonNullable<OutlookItem['way']>,
  today: string,
  standardTitle: (code: string) => string,
): string =>
  `if passed: ${listed(
    way.map(
      ({ standard, on, booked }) =>
        `${standardTitle(standard)}, ${booked ? 'booked' : 'possible'} ${formatDay(on, today)}`,
    ),
  )}`

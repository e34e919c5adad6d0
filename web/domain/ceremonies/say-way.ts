import type { OutlookItem } from '#contract/ceremonies/outlooks.ts'
import { sayDay } from '../../words/say-day.ts'
import { listed } from '../../words/say-number.ts'

/** The tests on the way, and that all hangs on passing: "if passed: Marching manual, booked Wed 2 Dec". */
export const sayWay = (
  way: NonNullable<OutlookItem['way']>,
  today: string,
  standardTitle: (code: string) => string,
): string =>
  `if passed: ${listed(
    way.map(
      ({ standard, on, booked }) =>
        `${standardTitle(standard)}, ${booked ? 'booked' : 'possible'} ${sayDay(on, today)}`,
    ),
  )}`

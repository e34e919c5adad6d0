import type { TestDayBody } from '../../server/contract/test-days/test-days.ts'
import { addDays, type PlainDate, toEpochDay } from '../../server/domain/calendar/plain-date.ts'
import type { Random } from './random.ts'

const TUESDAY = 2
const WEDNESDAY = 3
const THURSDAY = 4
/** How often a test day is given up for field training. */
const GIVEN_UP = 0.1

const weekday = (day: PlainDate): number => new Date(toEpochDay(day) * 86_400_000).getUTCDay()

/** Ceremonial season: outdoors, two test days a week. */
export const isSeason = (day: PlainDate): boolean => day.slice(5, 7) >= '04' && day.slice(5, 7) <= '10'

const isHoliday = (day: PlainDate): boolean => {
  const date = day.slice(5)
  return date >= '12-20' || date <= '01-02' || date === '07-04'
}

/** The battalion's test days from one day to another, inclusive, in order; the unit by its key. */
export function testCalendar(random: Random, from: PlainDate, through: PlainDate): TestDayBody[] {
  const days: TestDayBody[] = []
  for (let day = from; day <= through; day = addDays(day, 1)) {
    const weekdays = isSeason(day) ? [TUESDAY, THURSDAY] : [WEDNESDAY]
    if (!weekdays.includes(weekday(day)) || isHoliday(day) || random.chance(GIVEN_UP)) continue
    days.push({ on: day, unitId: 'battalion', place: isSeason(day) ? 'Parade field' : 'Drill hall' })
  }
  return days
}

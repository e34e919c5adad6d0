import { addDays, daysBetween, toEpochDay } from '#calendar/plain-date.ts'

export interface DueWeek<Item> {
  /** The Monday it begins with, `YYYY-MM-DD`. */
  monday: string
  items: Item[]
}

const MONDAY_EPOCH_DAY = 4

/** The Monday on or before a date. */
export const mondayOf = (day: string): string => addDays(day, -((toEpochDay(day) - MONDAY_EPOCH_DAY + 7 * 5000) % 7))

/**
 * Items by the week they are due in, every week from the earliest or this week to the last, those without any included.
 * Weeks before `weeksBack` weeks ago are gathered in the first.
 */
export const dueCalendar = <Item>(
  items: readonly Item[],
  dueOf: (item: Item) => string,
  today: string,
  weeksBack = 6,
): DueWeek<Item>[] => {
  const thisWeek = mondayOf(today)
  const floor = addDays(thisWeek, -7 * weeksBack)
  const placed = items.map((item) => {
    const week = mondayOf(dueOf(item))
    // biome-ignore lint/complexity/useMathMinMax: dates are text
    return { item, week: week < floor ? floor : week }
  })
  const all = [...placed.map(({ week }) => week), thisWeek].sort()
  const first = all[0]!
  const weeks = daysBetween(first, all.at(-1)!) / 7 + 1
  return Array.from({ length: weeks }, (_, index) => {
    const monday = addDays(first, 7 * index)
    return { monday, items: placed.filter(({ week }) => week === monday).map(({ item }) => item) }
  })
}

import { expect, test } from 'vitest'
import { createRandom } from '../../../seed/generate/random.ts'
import { testCalendar } from '../../../seed/generate/test-calendar.ts'

const days = testCalendar(createRandom(1), '2025-05-25', '2027-05-24').map(({ on }) => on)
const month = (day: string) => Number(day.slice(5, 7))

test('one or two test days a week, in order, on weekdays, none over the turn of the year', () => {
  expect(days).toEqual([...new Set(days)].toSorted())
  for (const day of days) expect([2, 3, 4], day).toContain(new Date(`${day}T00:00Z`).getUTCDay())
  expect(days.filter((day) => /-12-2[0-9]|-12-3|-01-0[12]|-07-04/.test(day))).toEqual([])
  const week = (day: string) => Math.floor((Date.parse(day) / 86_400_000 + 3) / 7)
  const perWeek = [...new Set(days.map(week))].map((one) => days.filter((day) => week(day) === one).length)
  expect(Math.max(...perWeek)).toBe(2)
  expect(days.length).toBeGreaterThan(110)
  expect(days.length).toBeLessThan(170)
})

test('in the season on the parade field twice a week, else in the drill hall', () => {
  const calendar = testCalendar(createRandom(2), '2026-01-01', '2026-12-31')
  for (const { on, place } of calendar) {
    expect(place, on).toBe(month(on) >= 4 && month(on) <= 10 ? 'Parade field' : 'Drill hall')
  }
})

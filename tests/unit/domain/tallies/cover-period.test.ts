import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import { coverPeriod, type PeriodRange } from '../../../../server/domain/tallies/cover-period.ts'

/** Days that are often near the ends of months and years, in twelve years with and without a 29 February. */
const arbitraryDay = fc
  .record({
    year: fc.integer({ min: 2019, max: 2030 }),
    month: fc.oneof(fc.constantFrom(1, 2, 3, 12), fc.integer({ min: 1, max: 12 })),
    day: fc.oneof(fc.constantFrom(1, 2, 28, 29, 30, 31), fc.integer({ min: 1, max: 31 })),
  })
  .map((fields) => Temporal.PlainDate.from(fields, { overflow: 'constrain' }).toString())

const arbitraryPeriod = fc.tuple(arbitraryDay, arbitraryDay).map((days) => days.sort() as [from: string, to: string])

const UNITS = { year: { years: 1 }, month: { months: 1 }, day: { days: 1 } } as const

/** The first day of a range and the last one, by the calendar of Temporal. */
function daysOf({ grain, first, last }: PeriodRange): [string, string] {
  const lastDay = Temporal.PlainDate.from(last).add(UNITS[grain]).subtract({ days: 1 })
  return [first, lastDay.toString()]
}

const dayAfter = (day: string): string => Temporal.PlainDate.from(day).add({ days: 1 }).toString()

describe('the periods that cover days', () => {
  it('make up exactly these days, one after the other, in at most five ranges', () => {
    fc.assert(
      fc.property(arbitraryPeriod, ([from, to]) => {
        const ranges = coverPeriod(from, to)
        expect(ranges.length).toBeLessThanOrEqual(5)
        const days = ranges.map(daysOf)
        expect(days[0]![0]).toBe(from)
        expect(days.at(-1)![1]).toBe(to)
        for (const [index, [first, last]] of days.entries()) {
          expect(first <= last).toBe(true)
          if (index > 0) expect(first).toBe(dayAfter(days[index - 1]![1]))
        }
      }),
      { numRuns: 1000, seed: 4180 },
    )
  })

  it('begin with the grain they are of', () => {
    fc.assert(
      fc.property(arbitraryPeriod, ([from, to]) => {
        for (const { grain, first, last } of coverPeriod(from, to)) {
          for (const day of [first, last]) {
            if (grain === 'year') expect(day.slice(4)).toBe('-01-01')
            if (grain === 'month') expect(day.slice(7)).toBe('-01')
          }
        }
      }),
      { numRuns: 500, seed: 4181 },
    )
  })

  it('leave no whole month to days and no whole year to months', () => {
    fc.assert(
      fc.property(arbitraryPeriod, ([from, to]) => {
        for (const range of coverPeriod(from, to)) {
          const [first, last] = daysOf(range).map((day) => Temporal.PlainDate.from(day)) as [
            Temporal.PlainDate,
            Temporal.PlainDate,
          ]
          const after = last.add({ days: 1 })
          const nextMonth = first.day === 1 ? first : first.with({ day: 1 }).add({ months: 1 })
          const nextYear = first.dayOfYear === 1 ? first : first.with({ month: 1, day: 1 }).add({ years: 1 })
          const isInside = (end: Temporal.PlainDate) => Temporal.PlainDate.compare(end, after) <= 0
          if (range.grain === 'day') expect(isInside(nextMonth.add({ months: 1 }))).toBe(false)
          if (range.grain === 'month') expect(isInside(nextYear.add({ years: 1 }))).toBe(false)
        }
      }),
      { numRuns: 500, seed: 4182 },
    )
  })

  it.each<[string | null, string | null, string[]]>([
    ['2026-03-02', '2026-03-02', ['day 2026-03-02 2026-03-02']],
    ['2026-03-01', '2026-03-31', ['month 2026-03-01 2026-03-01']],
    ['2024-02-01', '2024-02-28', ['day 2024-02-01 2024-02-28']],
    ['2024-02-01', '2024-02-29', ['month 2024-02-01 2024-02-01']],
    ['2025-01-01', '2026-12-31', ['year 2025-01-01 2026-01-01']],
    [
      '2024-11-30',
      '2027-02-01',
      [
        'day 2024-11-30 2024-11-30',
        'month 2024-12-01 2024-12-01',
        'year 2025-01-01 2026-01-01',
        'month 2027-01-01 2027-01-01',
        'day 2027-02-01 2027-02-01',
      ],
    ],
    ['2026-01-15', '2026-02-14', ['day 2026-01-15 2026-02-14']],
    [null, '2026-02-03', ['year 0001-01-01 2025-01-01', 'month 2026-01-01 2026-01-01', 'day 2026-02-01 2026-02-03']],
    ['2026-12-31', null, ['day 2026-12-31 2026-12-31', 'year 2027-01-01 9999-12-31']],
    [null, null, ['year 0001-01-01 9999-12-31']],
    ['2026-03-02', '2026-03-01', []],
  ])('from %s to %s are these', (from, to, expected) => {
    expect(coverPeriod(from, to).map(({ grain, first, last }) => `${grain} ${first} ${last}`)).toEqual(expected)
  })
})

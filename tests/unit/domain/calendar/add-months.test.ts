import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import { addMonths } from '../../../../server/domain/calendar/add-months.ts'
import { arbitraryDate } from './arbitrary-date.ts'

describe('addMonths', () => {
  // Counted by hand on a calendar: the day of the month is kept and clamped to the end of a shorter month.
  it.each([
    ['2023-08-31', 6, '2024-02-29'],
    ['2024-08-31', 6, '2025-02-28'],
    ['2026-03-31', 1, '2026-04-30'],
    ['2026-01-30', 1, '2026-02-28'],
    ['2026-01-28', 1, '2026-02-28'],
    ['2025-12-31', 2, '2026-02-28'],
    ['2025-12-31', 12, '2026-12-31'],
    ['2024-02-29', 12, '2025-02-28'],
    ['2024-02-29', 48, '2028-02-29'],
    ['2026-02-28', 6, '2026-08-28'],
    ['2099-11-30', 3, '2100-02-28'],
    ['1999-11-30', 3, '2000-02-29'],
    ['2026-03-02', 0, '2026-03-02'],
  ])('%s and %i months is %s', (date, months, expected) => {
    expect(addMonths(date, months)).toBe(expected)
  })

  it('agrees with Temporal.PlainDate.add (temporal-polyfill) for every date that can be entered', () => {
    fc.assert(
      fc.property(arbitraryDate, fc.integer({ min: -600, max: 600 }), (date, months) => {
        expect(addMonths(date, months)).toBe(Temporal.PlainDate.from(date).add({ months }).toString())
      }),
      { numRuns: 1000 },
    )
  })

  it('agrees with Temporal on every day of four years around a century that is no leap year', () => {
    for (let date = Temporal.PlainDate.from('2098-12-31'); date.year < 2103; date = date.add({ days: 1 })) {
      for (const months of [1, 6, 11, 12, 18]) {
        expect(addMonths(date.toString(), months)).toBe(date.add({ months }).toString())
      }
    }
  })
})

import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import { addDays, daysBetween, fromEpochDay, toEpochDay } from '../../../../server/domain/calendar/plain-date.ts'
import { arbitraryDate } from './arbitrary-date.ts'

describe('plain dates', () => {
  // POSIX: 1970-01-01 is day 0; 2000-03-01 is day 11017 (951868800 s / 86400 s).
  it.each([
    ['1970-01-01', 0],
    ['1969-12-31', -1],
    ['2000-03-01', 11017],
  ])('%s is epoch day %i', (date, days) => {
    expect(toEpochDay(date)).toBe(days)
    expect(fromEpochDay(days)).toBe(date)
  })

  it('agrees with Temporal.PlainDate (temporal-polyfill) on days later, earlier and between', () => {
    fc.assert(
      fc.property(arbitraryDate, fc.integer({ min: -4000, max: 4000 }), (date, days) => {
        const later = Temporal.PlainDate.from(date).add({ days }).toString()
        expect(addDays(date, days)).toBe(later)
        expect(daysBetween(date, later)).toBe(Temporal.PlainDate.from(date).until(later).days)
        expect(fromEpochDay(toEpochDay(date))).toBe(date)
      }),
      { numRuns: 1000 },
    )
  })

  it('sorts as text in the order of the days', () => {
    fc.assert(
      fc.property(arbitraryDate, arbitraryDate, (a, b) => {
        expect(a < b).toBe(toEpochDay(a) < toEpochDay(b))
      }),
    )
  })
})

import fc from 'fast-check'
import { expect, it } from 'vitest'
import { monthEnds } from '../../../../server/domain/calendar/month-ends.ts'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { arbitraryDate } from './arbitrary-date.ts'

it.each([
  ['2025-12-15', '2026-03-10', ['2025-12-31', '2026-01-31', '2026-02-28', '2026-03-10']],
  ['2024-02-01', '2024-02-29', ['2024-02-29']],
  ['2024-02-29', '2024-03-01', ['2024-02-29', '2024-03-01']],
  ['2026-03-10', '2026-03-10', ['2026-03-10']],
  ['2026-03-11', '2026-03-10', []],
])('%s to %s', (from, to, days) => expect(monthEnds(from, to)).toEqual(days))

it('are exactly the days before a first of a month, and the last one', () => {
  fc.assert(
    fc.property(arbitraryDate, fc.integer({ min: 0, max: 800 }), (from, length) => {
      const to = addDays(from, length)
      const every = Array.from({ length: length + 1 }, (_, i) => addDays(from, i))
      expect(monthEnds(from, to)).toEqual(every.filter((day) => day === to || addDays(day, 1).endsWith('-01')))
    }),
  )
})

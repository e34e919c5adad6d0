import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toMillis } from '../../../../server/domain/calendar/to-millis.ts'

describe('an instant in whole milliseconds', () => {
  it.each([
    ['2026-03-02T09:00:00Z', '2026-03-02T09:00:00.000Z'],
    ['2026-03-02T09:00:00.9999999Z', '2026-03-02T09:00:00.999Z'],
    ['2026-03-02T09:00:00.1239-05:00', '2026-03-02T14:00:00.123Z'],
    ['2026-12-31T23:59:60Z', '2026-12-31T23:59:59.999Z'],
    ['2026-12-31T23:59:60.5Z', '2026-12-31T23:59:59.999Z'],
    ['2026-12-31T18:59:60-05:00', '2026-12-31T23:59:59.999Z'],
  ])('%s is %s', (written, instant) => expect(new Date(toMillis(written)).toISOString()).toBe(instant))

  it('is none where a minute or an hour is 60', () => {
    expect(toMillis('2026-12-31T23:60:00Z')).toBeNaN()
    expect(toMillis('2026-12-31T60:00:00Z')).toBeNaN()
  })

  it('only ever loses what lies below the millisecond', () => {
    const digits = fc.stringMatching(/^\d{0,9}$/)
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4e12 }), digits, (ms, more) => {
        expect(toMillis(new Date(ms).toISOString().replace('Z', `${more}Z`))).toBe(ms)
      }),
    )
  })
})

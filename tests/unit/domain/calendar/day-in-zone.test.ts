import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import { dayInZone } from '../../../../server/domain/calendar/day-in-zone.ts'
import { arbitraryDate } from './arbitrary-date.ts'

const ZONES = [
  'America/New_York',
  'Europe/Berlin',
  'Asia/Jerusalem',
  'Pacific/Auckland',
  'Pacific/Apia',
  'Pacific/Honolulu',
  'Asia/Kathmandu',
  'America/St_Johns',
  'UTC',
]

const HOUR = 3_600_000

describe('dayInZone', () => {
  // Offsets and transitions as the IANA time zone database publishes them.
  it.each([
    // Apia went from 24:00 on 29 December 2011 (offset -10) to 00:00 on 31 December (offset +14).
    ['2011-12-30T09:59:59.999Z', 'Pacific/Apia', '2011-12-29'],
    ['2011-12-30T10:00:00Z', 'Pacific/Apia', '2011-12-31'],
    // Kathmandu is 5:45 ahead.
    ['2026-03-02T18:14:59Z', 'Asia/Kathmandu', '2026-03-02'],
    ['2026-03-02T18:15:00Z', 'Asia/Kathmandu', '2026-03-03'],
    // New York: 5 hours behind before, 4 after 8 March 2026, 2:00.
    ['2026-03-08T04:59:59Z', 'America/New_York', '2026-03-07'],
    ['2026-03-08T05:00:00Z', 'America/New_York', '2026-03-08'],
    ['2026-03-09T03:59:59Z', 'America/New_York', '2026-03-08'],
    ['2026-03-09T04:00:00Z', 'America/New_York', '2026-03-09'],
    // Berlin: 2 hours ahead before, 1 after 25 October 2026, 3:00.
    ['2026-10-24T22:00:00Z', 'Europe/Berlin', '2026-10-25'],
    ['2026-10-25T22:59:59Z', 'Europe/Berlin', '2026-10-25'],
    ['2026-10-25T23:00:00Z', 'Europe/Berlin', '2026-10-26'],
    // Auckland: 13 hours ahead in January.
    ['2026-01-14T10:59:59Z', 'Pacific/Auckland', '2026-01-14'],
    ['2026-01-14T11:00:00Z', 'Pacific/Auckland', '2026-01-15'],
    // The offset it was written with does not matter.
    ['2026-03-02T23:30:00-05:00', 'America/New_York', '2026-03-02'],
    ['2026-03-02T23:30:00-05:00', 'Europe/Berlin', '2026-03-03'],
    ['2026-03-02T00:30:00+13:00', 'America/New_York', '2026-03-01'],
  ])('%s in %s is %s', (instant, zone, expected) => {
    expect(dayInZone(instant, zone)).toBe(expected)
    expect(dayInZone(Date.parse(instant), zone)).toBe(expected)
  })

  it('agrees with Temporal (temporal-polyfill) around the beginning of any day, in zones with gaps', () => {
    const nearMidnight = fc.constantFrom(-25 * HOUR, -HOUR, -1, 0, 1, HOUR, 2 * HOUR, 23 * HOUR, 24 * HOUR)
    fc.assert(
      fc.property(arbitraryDate, fc.constantFrom(...ZONES), nearMidnight, (date, zone, delta) => {
        const start = Temporal.PlainDate.from(date).toZonedDateTime({ timeZone: zone })
        const instant = start.epochMilliseconds + delta
        const expected = Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone).toPlainDate()
        expect(dayInZone(instant, zone)).toBe(expected.toString())
      }),
      { numRuns: 1500 },
    )
  })

  it('agrees with Temporal on every hour of the days on which the clocks of 2026 change', () => {
    for (const [zone, day] of [
      ['America/New_York', '2026-03-08'],
      ['America/New_York', '2026-11-01'],
      ['Europe/Berlin', '2026-03-29'],
      ['Europe/Berlin', '2026-10-25'],
      ['Asia/Jerusalem', '2026-03-27'],
      ['Asia/Jerusalem', '2026-10-25'],
      ['Pacific/Auckland', '2026-04-05'],
      ['Pacific/Auckland', '2026-09-27'],
      ['America/St_Johns', '2026-03-08'],
    ] as const) {
      const noon = Temporal.PlainDate.from(day).toZonedDateTime({ timeZone: zone, plainTime: '12:00' })
      for (let half = -50; half <= 50; half++) {
        const at = noon.add({ minutes: 30 * half })
        expect(dayInZone(at.epochMilliseconds, zone)).toBe(at.toPlainDate().toString())
      }
    }
  })

  it('refuses a zone that does not exist', () => {
    expect(() => dayInZone('2026-03-02T09:00:00Z', 'Calloway/Point')).toThrow(RangeError)
  })
})

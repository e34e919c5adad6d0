import { Temporal } from 'temporal-polyfill'
import { expect, test } from 'vitest'
import { instantAt, withOffset } from '../../../seed/generate/zoned-time.ts'

const ZONES = ['America/New_York', 'UTC', 'Asia/Kolkata', 'Pacific/Auckland', 'America/St_Johns']
const DAYS = Array.from({ length: 400 }, (_, day) =>
  Temporal.PlainDate.from('2025-12-01').add({ days: day }).toString(),
)

test.each(ZONES)('working hours in %s are the instants that Temporal (temporal-polyfill) has', (timeZone) => {
  for (const day of DAYS) {
    for (const [hour, minute] of [
      [7, 0],
      [8, 45],
      [16, 31],
    ] as const) {
      const expected = Temporal.PlainDateTime.from(`${day}T00:00`).with({ hour, minute }).toZonedDateTime(timeZone)
      const instant = instantAt(day, hour * 60 + minute, timeZone)
      expect(instant).toBe(expected.epochMilliseconds)
      expect(withOffset(instant, timeZone)).toBe(expected.toString({ timeZoneName: 'never' }))
    }
  }
})

test('midnight is the beginning of the day', () => {
  expect(new Date(instantAt('2026-11-25', 0, 'America/New_York')).toISOString()).toBe('2026-11-25T05:00:00.000Z')
  expect(new Date(instantAt('2026-07-04', 0, 'America/New_York')).toISOString()).toBe('2026-07-04T04:00:00.000Z')
})

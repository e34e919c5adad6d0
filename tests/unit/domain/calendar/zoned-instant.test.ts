import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import {
  clockChange,
  instantInZone,
  minuteInZone,
  textInZone,
  zonedInstant,
} from '../../../../server/domain/calendar/zoned-instant.ts'
import { toInstant } from '../../../../server/imports/services/sheet-bodies.ts'

/**
 * Days on which clocks change, by the IANA time zone database, and the minutes of the day it is about. RFC 5545,
 * section 3.3.5: a time that does not occur is read by the offset before the gap, one that occurs twice is the first.
 */
const CHANGES = [
  ['America/New_York', '2026-03-08', 'left out', '02:00', '02:59'],
  ['America/New_York', '2026-11-01', 'twice', '01:00', '01:59'],
  ['Europe/Berlin', '2026-03-29', 'left out', '02:00', '02:59'],
  ['Europe/Berlin', '2026-10-25', 'twice', '02:00', '02:59'],
  ['Australia/Lord_Howe', '2026-10-04', 'left out', '02:00', '02:29'],
  ['Australia/Lord_Howe', '2026-04-05', 'twice', '01:30', '01:59'],
] as const

const clockOf = (minute: number): string =>
  [Math.floor(minute / 60), minute % 60].map((part) => String(part).padStart(2, '0')).join(':')

describe.each(CHANGES)('in %s on %s', (zone, day, change, first, last) => {
  it('every minute typed and every minute imported is the instant that Temporal has', () => {
    for (let minute = 0; minute < 24 * 60; minute++) {
      const expected = Temporal.PlainDateTime.from(`${day}T${clockOf(minute)}`).toZonedDateTime(zone).epochMilliseconds
      expect(Date.parse(zonedInstant(day, clockOf(minute), zone))).toBe(expected)
      expect(Date.parse(toInstant(`${day}T${clockOf(minute)}`, zone))).toBe(expected)
      expect(instantInZone(day, minute, zone)).toBe(expected)
    }
  })

  it(`what is ${change} is ${first} to ${last} and no other minute`, () => {
    for (let minute = 0; minute < 24 * 60; minute++) {
      const clock = clockOf(minute)
      expect(clockChange(day, clock, zone)).toBe(clock >= first && clock <= last ? change : null)
    }
  })
})

const DAYS = Array.from({ length: 400 }, (_, day) =>
  Temporal.PlainDate.from('2025-12-01').add({ days: day }).toString(),
)

it.each(['America/New_York', 'UTC', 'Asia/Kolkata', 'Pacific/Auckland', 'America/St_Johns'])(
  'working hours in %s are the instants and texts that Temporal has, and lead back to their minute',
  (timeZone) => {
    for (const day of DAYS) {
      for (const minute of [7 * 60, 8 * 60 + 45, 16 * 60 + 31]) {
        const expected = Temporal.PlainDateTime.from(`${day}T${clockOf(minute)}`).toZonedDateTime(timeZone)
        const instant = instantInZone(day, minute, timeZone)
        expect(instant).toBe(expected.epochMilliseconds)
        expect(textInZone(instant, timeZone)).toBe(expected.toString({ timeZoneName: 'never' }))
        expect(minuteInZone(instant, timeZone)).toBe(minute)
      }
    }
  },
)

it('midnight is the beginning of the day', () => {
  expect(new Date(instantInZone('2026-11-25', 0, 'America/New_York')).toISOString()).toBe('2026-11-25T05:00:00.000Z')
  expect(new Date(instantInZone('2026-07-04', 0, 'America/New_York')).toISOString()).toBe('2026-07-04T04:00:00.000Z')
})

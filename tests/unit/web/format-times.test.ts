import { afterEach, describe, expect, it } from 'vitest'
import { formatMoment } from '../../../web/words/format-moment.ts'
import { formatTime } from '../../../web/words/format-time.ts'
import { formatTimesAsked } from '../../../web/words/format-times-asked.ts'
import { formatUnitTime } from '../../../web/words/format-zone.ts'
import { today } from '../../../web/words/today.ts'
import { keepUnitZone } from '../../../web/words/unit-zone.ts'

const at = (day: string, from: string, to: string) =>
  formatTimesAsked({ day, from, to, zone: 'America/New_York', today: '2026-03-01' })

describe('times of a ceremony', () => {
  it('are not asked about where they are plain', () => expect(at('2026-03-20', '10:00', '11:00')).toEqual([]))
  it('are asked about where the end is not after the start', () =>
    expect(at('2026-03-20', '10:20', '10:00')).toEqual([
      '10:00 is not after 10:20. It ends on the next day, 21 Mar, and lasts 23 h 40 min.',
    ]))
  it('count the hour that the change of clocks takes away', () =>
    expect(at('2026-03-07', '22:00', '04:00')[0]).toContain('lasts 5 h 0 min'))
  it('are asked about on a past day', () =>
    expect(at('2026-02-20', '10:00', '11:00')).toEqual(['Fri 20 Feb is past. It took place then.']))
  it('are asked about where the clocks change', () => {
    expect(at('2026-03-08', '02:30', '04:00')).toEqual([
      'The clocks are put forward that day, and there is no 02:30: 03:30 is meant.',
    ])
    expect(at('2026-11-01', '01:30', '04:00')).toEqual([
      'The clocks are put back that day, and 01:30 comes twice: the first is meant.',
    ])
  })
})

describe('a time of the unit', () => {
  const instant = '2026-06-17T14:00:00Z'
  it.each([
    ['America/New_York', 'America/New_York', '10:00'],
    ['America/New_York', 'Europe/Berlin', '10:00 New York time'],
    ['Asia/Kolkata', 'UTC', '19:30 Kolkata time'],
    ['America/New_York', 'America/Toronto', '10:00'],
    [null, 'UTC', '14:00'],
  ])('of %s on a device in %s is %s', (zone, device, said) => expect(formatUnitTime(instant, zone, device)).toBe(said))
})

describe('a time on a page', () => {
  afterEach(() => keepUnitZone(null))
  it('is of the unit, and of another zone only by name', () => {
    keepUnitZone('America/New_York')
    const instant = '2026-06-17T14:00:00Z'
    expect(formatTime(instant)).toBe('10:00')
    expect(formatTime(instant, 'America/Toronto')).toBe('10:00')
    expect(formatTime(instant, 'America/Denver')).toBe('08:00 Denver time')
    expect(formatMoment('2026-06-18T02:00:00Z', '2026-06-17')).toBe('Wed 17 Jun, 22:00')
    expect(today(null, new Date('2026-06-18T02:00:00Z'))).toBe('2026-06-17')
  })
})

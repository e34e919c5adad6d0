import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { formatDay, formatDayInFull, formatDayWithYear } from '../../../web/words/format-day.ts'
import { capital, counted, countedInWords, figure, inWords, listed, plural } from '../../../web/words/format-number.ts'
import { formatTime } from '../../../web/words/format-time.ts'
import { ofAll } from '../../../web/words/of-all.ts'
import { today } from '../../../web/words/today.ts'
import { keepUnitZone } from '../../../web/words/unit-zone.ts'

beforeAll(() => keepUnitZone('America/New_York'))
afterAll(() => keepUnitZone(null))

describe('a date in a list', () => {
  // Weekdays from the calendar of 2026 (`date -d 2026-12-05 +%A` says Saturday).
  it.each([
    ['2026-12-05', '2026-11-25', 'Sat 5 Dec'],
    ['2026-12-09', '2026-11-25', 'Wed 9 Dec'],
    ['2026-11-11', '2026-11-25', 'Wed 11 Nov'],
    ['2026-11-10', '2026-11-25', '10 Nov'],
    ['2026-12-10', '2026-11-25', '10 Dec'],
    ['2027-01-03', '2026-12-28', 'Sun 3 Jan'],
    ['2027-03-14', '2026-11-25', '14 Mar 2027'],
  ])('%s, seen on %s, is %s', (day, now, said) => expect(formatDay(day, now)).toBe(said))
})

describe('a date in a sentence', () => {
  it.each([
    ['2026-12-05', '2026-11-25', 'Saturday 5 December'],
    ['2027-01-24', '2026-11-25', 'Sunday 24 January'],
    ['2027-01-25', '2026-11-25', '25 January 2027'],
    ['2026-06-02', '2026-11-25', '2 June'],
  ])('%s, seen on %s, is %s', (day, now, said) => expect(formatDayInFull(day, now)).toBe(said))
})

it('a date for paper has its year', () => expect(formatDayWithYear('2026-11-25')).toBe('25 November 2026'))

describe('numbers', () => {
  it('are words up to twelve and figures above', () => {
    expect([0, 1, 12, 13, 1204].map(inWords)).toEqual(['no', 'one', 'twelve', '13', '1,204'])
    expect(figure(1204)).toBe('1,204')
    expect(ofAll(7, 13)).toBe('7 of 13')
  })
  it('carry their noun in the right number', () => {
    expect([0, 1, 2].map((count) => counted(count, 'retest'))).toEqual(['0 retests', '1 retest', '2 retests'])
    expect(countedInWords(3, 'test')).toBe('three tests')
    expect(plural(1, 'is', 'are')).toBe('is')
    expect(plural(0, 'is', 'are')).toBe('are')
  })
  it('stand in lists as one says them', () => {
    expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map((words) => listed(words))).toEqual([
      '',
      'a',
      'a and b',
      'a, b and c',
    ])
    expect(capital('two of eleven')).toBe('Two of eleven')
  })
})

describe('times', () => {
  // Zones of the IANA database: New York is five hours behind UTC in winter, Berlin one ahead.
  it('are told in the zone of the unit, another one by its name', () => {
    expect(formatTime('2026-01-15T14:31:00Z', 'America/New_York')).toBe('09:31')
    expect(formatTime('2026-01-15T14:31:00Z', 'Europe/Berlin')).toBe('15:31 Berlin time')
  })
  it('today is the day of the unit, not of UTC', () => {
    const lateEvening = new Date('2026-01-16T03:00:00Z')
    expect(today('America/New_York', lateEvening)).toBe('2026-01-15')
    expect(today('Europe/Berlin', lateEvening)).toBe('2026-01-16')
  })
})

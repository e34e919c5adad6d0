import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays, fromEpochDay } from '../../../../server/domain/calendar/plain-date.ts'
import { excelSerialToIso } from '../../../../server/domain/import/excel-serial.ts'
import { type DateAnswer, parseDay } from '../../../../server/domain/import/parse-day.ts'

const day = (text: string, answer?: DateAnswer) => parseDay(text, answer)

describe('a day', () => {
  it.each([
    '2026-03-02',
    '2026/3/2',
    '2026.03.02',
    '20260302',
    '2 March 2026',
    '2 Mar 2026',
    '02-MAR-2026',
    '02MAR2026',
    'March 2, 2026',
    'Mar 2 2026',
    '2nd March 2026',
    '2026-03-02T09:30',
    '2026-03-02 09:30:15',
    '2. March 2026',
    '2026-03-02T09:30:00Z',
  ])('%s is 2 March 2026', (text) => expect(day(text)).toEqual({ day: '2026-03-02' }))

  it.each([
    ['13/3/2026', '2026-03-13'],
    ['3/13/2026', '2026-03-13'],
    ['4.4.2026', '2026-04-04'],
  ])('%s can only mean %s', (text, only) => expect(day(text)).toEqual({ day: only }))

  it('is asked about where it may be two, and read as answered', () => {
    expect(day('3/4/2026')).toEqual({ ask: ['day-first', 'month-first'] })
    expect(day('3/4/2026', 'day-first')).toEqual({ day: '2026-04-03' })
    expect(day('3/4/2026', 'month-first')).toEqual({ day: '2026-03-04' })
    expect(day('13/4/2026', 'month-first')).toEqual({ day: '2026-04-13' })
  })

  it('is asked about where a year has two digits', () => {
    expect(day('03/04/24')).toEqual({ ask: ['day-first', 'month-first', 'year-first'] })
    expect(day('31/12/24')).toEqual({ ask: ['day-first', 'year-first'] })
    expect(day('31/12/24', 'day-first')).toEqual({ day: '2024-12-31' })
    expect(day('31/12/24', 'month-first')).toMatchObject({ wrong: expect.stringContaining('month first') })
    expect(day('2 Mar 24')).toEqual({ ask: ['day-first'] })
    expect(day('2 Mar 24', 'day-first')).toEqual({ day: '2024-03-02' })
  })

  it('is asked about where it is a number of days', () => {
    expect(day('45000')).toEqual({ ask: ['serial-1900', 'serial-1904'] })
    expect(day('45000', 'serial-1900')).toEqual({ day: '2023-03-15' })
    expect(day('45000', 'serial-1904')).toEqual({ day: '2027-03-16' })
  })

  it.each(['', 'soon', '30 Feb 2026', '2026-02-30', '31/31/2026', '12345', '0205-01-01', '2 Marz 2026', '1007', '=A1'])(
    '"%s" is none',
    (text) => expect(day(text)).toMatchObject({ wrong: expect.any(String) }),
  )

  it('never means a day that its text does not say (property)', () => {
    const anyDay = fc.integer({ min: -20_000, max: 70_000 }).map(fromEpochDay)
    fc.assert(
      fc.property(anyDay, fc.constantFrom<DateAnswer>('day-first', 'month-first'), (date, order) => {
        const [year, month, dayOfMonth] = date.split('-').map(Number) as [number, number, number]
        const text = order === 'day-first' ? `${dayOfMonth}.${month}.${year}` : `${month}/${dayOfMonth}/${year}`
        expect(day(text, order)).toEqual({ day: date })
        const unasked = day(text)
        if ('day' in unasked) expect(unasked.day).toBe(date)
        else expect(unasked).toEqual({ ask: ['day-first', 'month-first'] })
      }),
      { seed: 20261125, numRuns: 2000 },
    )
  })
})

// ECMA-376-1:2016, 18.17.4.1–2: the 1900 system begins with 1 January 1900 = 1 and counts a 29 February 1900 (60);
// the 1904 system begins with 1 January 1904 = 0. Its examples: 2 January 1910 is 3655 in the first, 2193 in the second.
describe('a serial number', () => {
  it.each([
    [1, 1900, '1900-01-01'],
    [59, 1900, '1900-02-28'],
    [60, 1900, null],
    [61, 1900, '1900-03-01'],
    [3655, 1900, '1910-01-02'],
    [2193, 1904, '1910-01-02'],
    [0, 1904, '1904-01-01'],
    [45_000.999_999, 1900, '2023-03-16'],
    [0.5, 1900, '12:00'],
    [-1, 1900, null],
    [Number.NaN, 1900, null],
    [1e9, 1900, null],
  ] as const)('%d counted from %d is %s', (serial, system, iso) => expect(excelSerialToIso(serial, system)).toBe(iso))

  it('goes on day by day, the two systems 1,462 apart (property)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1462 + 61, max: 100_000 }), (serial) => {
        const iso = excelSerialToIso(serial, 1900)!
        expect(excelSerialToIso(serial + 1, 1900)).toBe(addDays(iso, 1))
        expect(excelSerialToIso(serial - 1462, 1904)).toBe(iso)
      }),
      { seed: 20261125 },
    )
  })
})

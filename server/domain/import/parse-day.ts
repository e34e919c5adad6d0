import { fromEpochDay, type PlainDate, toEpochDay } from '../calendar/plain-date.ts'
import { type DateSystem, excelSerialToIso } from './excel-serial.ts'

/** How the numbers of a column's dates are to be read, as somebody who knows the file has said. */
export type DateAnswer = 'day-first' | 'month-first' | 'year-first' | 'serial-1900' | 'serial-1904'

/** What a date that may mean several things could mean; one of these settles it. */
export type DayReading =
  | { readonly day: PlainDate }
  | { readonly ask: readonly DateAnswer[] }
  | { readonly wrong: string }

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']
const FULL_MONTHS = 'january february march april may june july august september october november december'.split(' ')

/** A number of this size in a column of days counts days from 1900 or 1904: 1950 to 2119. */
const SERIAL = { least: 18_264, most: 80_000 }
/** Two digits of a year, once somebody has said how the dates are read: 00–68 are 2000–2068. */
const TURN_OF_CENTURY = 69

/**
 * Reads one day. Notations: 2026-03-02 (also with / or .), 20260302, 2 March 2026, 2 Mar 2026, 02MAR2026,
 * March 2, 2026, 2/3/2026 and the like, serial numbers of a spreadsheet; a time after it is left out.
 * In: the text, and what was answered for its column. Out: the day; or what has to be asked first, because the text
 * allows more than one day (also two digits of a year); or what is wrong. Never a guess.
 */
export function parseDay(text: string, answer?: DateAnswer): DayReading {
  const trimmed = text
    .trim()
    .replace(/(?:[T ]|, )\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?: ?[AaPp][Mm])?(?:Z|[+-]\d\d:?\d\d)?$/, '')
  const iso = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/.exec(trimmed) ?? /^(\d{4})()(\d{2})(\d{2})$/.exec(trimmed)
  if (iso) return dayOf(iso[1]!, iso[3]!, iso[4]!)
  const numbers = /^(\d{1,2})\s?([-/.])\s?(\d{1,2})\s?\2\s?(\d{4}|\d{2})$/.exec(trimmed)
  if (numbers) return fromNumbers([numbers[1]!, numbers[3]!, numbers[4]!], answer)
  const worded =
    /^(\d{1,2})(?:st|nd|rd|th|\.)?[-\s.]*([A-Za-z]{3,9})[-\s.,]*(\d{4}|\d{2})$/.exec(trimmed) ??
    swap(/^([A-Za-z]{3,9})[-\s.]*(\d{1,2})(?:st|nd|rd|th)?[-\s.,]+(\d{4}|\d{2})$/.exec(trimmed))
  if (worded) return fromWords(worded[1]!, worded[2]!, worded[3]!, answer)
  if (/^\d{5}(\.\d+)?$/.test(trimmed)) return fromSerial(Number(trimmed), answer)
  return { wrong: `"${shortened(text)}" is no date. Write it as 2026-03-02.` }
}

const swap = (found: RegExpExecArray | null) => (found ? [found[0]!, found[2]!, found[1]!, found[3]!] : null)

function fromWords(day: string, word: string, year: string, answer: DateAnswer | undefined): DayReading {
  const lower = word.toLowerCase()
  const month =
    lower.length === 3
      ? MONTHS.indexOf(lower)
      : FULL_MONTHS.findIndex((one) => one === lower || (lower === 'sept' && one === 'september'))
  if (month < 0) return { wrong: `"${shortened(word)}" is no month in English. Write the date as 2026-03-02.` }
  if (year.length === 2 && answer === undefined) return { ask: ['day-first'] }
  return dayOf(fullYear(year), String(month + 1), day)
}

function fromNumbers(parts: readonly [string, string, string], answer: DateAnswer | undefined): DayReading {
  const shortYear = parts[2].length === 2
  const readings = new Map<DateAnswer, readonly [year: string, month: string, day: string]>([
    ['day-first', [fullYear(parts[2]), parts[1], parts[0]]],
    ['month-first', [fullYear(parts[2]), parts[0], parts[1]]],
    ...(shortYear ? [['year-first', [fullYear(parts[0].padStart(2, '0')), parts[1], parts[2]]] as const] : []),
  ])
  const possible = [...readings].filter(([, [year, month, day]]) => 'day' in dayOf(year, month, day))
  if (possible.length === 0) return { wrong: `There is no such date as "${parts.join('/')}".` }
  const days = new Set(possible.map(([, [year, month, day]]) => `${year}-${Number(month)}-${Number(day)}`))
  if (days.size === 1 && !shortYear) return dayOf(...possible[0]![1])
  const chosen = answer && readings.get(answer)
  if (!chosen) return { ask: possible.map(([name]) => name) }
  const day = dayOf(...chosen)
  return 'day' in day
    ? day
    : { wrong: `Read ${answer!.replace('-', ' ')}, there is no such date as "${parts.join('/')}".` }
}

function fromSerial(serial: number, answer: DateAnswer | undefined): DayReading {
  if (serial < SERIAL.least || serial > SERIAL.most) return { wrong: `"${serial}" is no date. Write it as 2026-03-02.` }
  if (answer !== 'serial-1900' && answer !== 'serial-1904') return { ask: ['serial-1900', 'serial-1904'] }
  const system: DateSystem = answer === 'serial-1900' ? 1900 : 1904
  return { day: excelSerialToIso(Math.floor(serial), system)! }
}

const fullYear = (year: string): string =>
  year.length === 4 ? year : `${Number(year) < TURN_OF_CENTURY ? '20' : '19'}${year.padStart(2, '0')}`

function dayOf(year: string, month: string, day: string): DayReading {
  const date = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  const exists =
    Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && fromEpochDay(toEpochDay(date)) === date
  if (!exists) return { wrong: `There is no such date as ${date}.` }
  return Number(year) < 1900 || Number(year) > 2200 ? { wrong: `The year ${year} cannot be meant.` } : { day: date }
}

const shortened = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text)

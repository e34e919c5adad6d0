import type { Column } from './column.ts'
import { type Cell, cellText, type FileRow } from './file-row.ts'
import { splitList } from './list-notation.ts'
import type { Parsed } from './mark-notation.ts'
import type { Mapping } from './match-columns.ts'
import { parseClock } from './parse-clock.ts'
import { type DateAnswer, parseDay } from './parse-day.ts'

/** Why a row cannot be taken, and in which column. */
export interface RowProblem {
  readonly key: string
  readonly detail: string
}

/** What stands in the columns of a row, by key; blank ones are left out. */
export interface Fields {
  readonly values: Readonly<Record<string, unknown>>
  readonly problems: readonly RowProblem[]
}

/** How a file's columns are to be read. */
export interface Reading {
  readonly columns: readonly Column[]
  readonly mapping: Mapping
  readonly dates: Readonly<Record<string, DateAnswer>>
}

/**
 * Reads a row by its columns. Out: text as text, days as `YYYY-MM-DD`, moments as an instant with offset, or as
 * `YYYY-MM-DDTHH:MM` or `HH:MM` by the clock on the wall, lists as lists; and every cell that cannot be read, with why.
 */
export function readFields(row: FileRow, { columns, mapping, dates }: Reading): Fields {
  const values: Record<string, unknown> = {}
  const problems: RowProblem[] = []
  for (const column of columns) {
    const index = mapping[column.key]
    if (index === undefined) {
      if (column.needed)
        problems.push({ key: column.key, detail: `No column of the file is taken for "${column.title}".` })
      continue
    }
    const unreadable = row.problems?.find((one) => one.column === index)
    const text = cellText(row.cells[index])
    if (unreadable) problems.push({ key: column.key, detail: unreadable.detail })
    else if (text === '' && column.needed) problems.push({ key: column.key, detail: `"${column.title}" is empty.` })
    else if (text !== '') {
      const read = readCell(column, row.cells[index]!, text, dates[column.key])
      if ('wrong' in read) problems.push({ key: column.key, detail: `${column.title}: ${read.wrong}` })
      else values[column.key] = read.value
    }
  }
  return { values, problems }
}

const NONE = ['none', '-', '–', 'no']

function readCell({ type, key }: Column, cell: Cell, text: string, answer: DateAnswer | undefined): Parsed<unknown> {
  switch (type) {
    case 'day':
      return dayOf(text, answer)
    case 'clock':
    case 'moment':
      return momentOf(text, answer)
    case 'codes':
      return {
        value: NONE.includes(text.toLowerCase())
          ? []
          : text
              .split(/[;,|/+]|\s+and\s+/)
              .map((one) => one.trim())
              .filter(Boolean),
      }
    case 'list':
      return { value: splitList(text) }
    case 'whole':
      return /^\d{1,9}$/.test(text) ? { value: Number(text) } : { wrong: `"${text}" is no whole number.` }
    case 'yes-no':
      return oneOf(text, YES_NO, 'yes or no')
    case 'outcome':
      return oneOf(text, OUTCOMES, 'GO or NO-GO')
    case 'left':
      return oneOf(text, LEFT, 'transferred, separated or other')
    case 'trials':
      if (typeof cell === 'number' && key.startsWith('measure/')) return { value: { digits: text } }
      return { value: text }
    default:
      return { value: text }
  }
}

const YES_NO = {
  yes: true,
  y: true,
  true: true,
  '1': true,
  x: true,
  ok: true,
  no: false,
  n: false,
  false: false,
  '0': false,
}
const OUTCOMES = {
  go: 'GO',
  pass: 'GO',
  passed: 'GO',
  yes: 'GO',
  '1': 'GO',
  'no-go': 'NO-GO',
  'no go': 'NO-GO',
  nogo: 'NO-GO',
  fail: 'NO-GO',
  failed: 'NO-GO',
  no: 'NO-GO',
  '0': 'NO-GO',
} as const
const LEFT = {
  transferred: 'transferred',
  transfer: 'transferred',
  moved: 'transferred',
  separated: 'separated',
  separation: 'separated',
  discharged: 'separated',
  retired: 'separated',
  other: 'other',
} as const

function oneOf<Value>(text: string, words: Readonly<Record<string, Value>>, said: string): Parsed<Value> {
  const word = text.toLowerCase()
  return Object.hasOwn(words, word) ? { value: words[word]! } : { wrong: `"${text}" is neither ${said}.` }
}

function dayOf(text: string, answer: DateAnswer | undefined): Parsed<string> {
  const reading = parseDay(text, answer)
  if ('day' in reading) return { value: reading.day }
  return { wrong: 'wrong' in reading ? reading.wrong : `"${text}" may mean several days; say how this column is read.` }
}

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:?\d{2})$/i

function momentOf(text: string, answer: DateAnswer | undefined): Parsed<string> {
  if (INSTANT.test(text)) return { value: text }
  const bare = parseClock(text)
  if (bare !== null) return { value: clockText(bare) }
  const [, date, clock] = /^(.*\S)(?:T|, | )(\d{1,2}:?\d{2}(?::\d{2}(?:\.\d+)?)?(?: ?[ap]\.?m\.?)?)$/i.exec(text) ?? []
  const minutes = clock === undefined ? null : parseClock(clock)
  if (minutes === null) return { wrong: `"${text}" is no time. Write 09:30, or 2026-03-02 09:30.` }
  const day = dayOf(date!, answer)
  return 'wrong' in day ? day : { value: `${day.value}T${clockText(minutes)}` }
}

const clockText = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`

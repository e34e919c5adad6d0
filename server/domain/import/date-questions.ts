import type { Column } from './column.ts'
import { cellText, type FileRow } from './file-row.ts'
import type { Mapping } from './match-columns.ts'
import { type DateAnswer, parseDay } from './parse-day.ts'

/** Something to be asked about a column of days before it can be read. */
export interface DateQuestion {
  readonly key: string
  readonly answers: readonly DateAnswer[]
  /** The first few dates that may mean several days. */
  readonly examples: readonly string[]
  /** How many rows it is about. */
  readonly rows: number
}

const EXAMPLES = 3

/** What has to be asked about the mapped columns of days, one question a column; empty when every date is clear. */
export function dateQuestions(rows: Iterable<FileRow>, columns: readonly Column[], mapping: Mapping): DateQuestion[] {
  const asked = new Map<string, { answers: Set<DateAnswer>; examples: string[]; rows: number }>()
  const days = columns.filter(({ key, type }) => (type === 'day' || type === 'moment') && key in mapping)
  for (const row of rows) {
    for (const { key } of days) {
      const text = cellText(row.cells[mapping[key]!])
      const reading = text === '' ? null : parseDay(text)
      if (reading === null || !('ask' in reading)) continue
      const known = asked.get(key) ?? { answers: new Set<DateAnswer>(), examples: [], rows: 0 }
      for (const answer of reading.ask) known.answers.add(answer)
      if (known.examples.length < EXAMPLES && !known.examples.includes(text)) known.examples.push(text)
      known.rows += 1
      asked.set(key, known)
    }
  }
  return [...asked].map(([key, { answers, ...rest }]) => ({ key, answers: [...answers], ...rest }))
}

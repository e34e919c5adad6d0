import { readFileSync } from 'node:fs'
import { join } from 'node:path'

/** The rows of a data file beside these tests as text by column; the files hold no commas or line breaks in fields. */
export function readCsv(name: string): Record<string, string>[] {
  const text = readFileSync(join(import.meta.dirname, '..', 'data', name), 'utf8')
  const [header, ...rows] = text
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(',').map((field) => field.replace(/^"|"$/g, '')))
  return rows.map((row) => Object.fromEntries(header!.map((column, i) => [column, row[i] ?? ''])))
}

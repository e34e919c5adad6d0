import { Readable } from 'node:stream'
import { CsvError, parse } from 'csv-parse'
import type { FileRow } from '../domain/import/file-row.ts'
import { LONGEST_CELL, LONGEST_ROW, MOST_COLUMNS, MOST_ROWS_READ } from './limits.ts'
import { cellTooLong, rowTooLong, tooManyColumns, tooManyRows } from './refusals.ts'
import { sniffDelimiter } from './sniff-delimiter.ts'
import { notReadable } from './sniff-format.ts'
import { readText, textEncoding } from './text-encoding.ts'

const SAMPLE = 65_536
/** Delimiters on a line: some may stand in cells, so there may be more than there are columns. */
const MOST_DELIMITERS = 40 * MOST_COLUMNS

/** The rows of a table in text, whatever its encoding, delimiter and line ends; one at a time, so that memory stays small. */
export async function* readCsv(path: string): AsyncGenerator<FileRow> {
  const encoding = await textEncoding(path)
  const delimiter = sniffDelimiter(await beginning(path, encoding))
  const parser = parse({
    delimiter,
    relax_quotes: true,
    relax_column_count: true,
    skip_empty_lines: false,
    record_delimiter: ['\r\n', '\n', '\r'],
    max_record_size: LONGEST_ROW,
  })
  const source = Readable.from(boundedLines(readText(path, encoding), delimiter))
  source.once('error', (error) => parser.destroy(error))
  source.pipe(parser)
  let number = 0
  try {
    for await (const cells of parser as AsyncIterable<string[]>) {
      number += 1
      if (number > MOST_ROWS_READ) throw tooManyRows()
      if (cells.length > MOST_COLUMNS) throw tooManyColumns(number)
      const long = cells.findIndex((cell) => cell.length > LONGEST_CELL)
      if (long >= 0) throw cellTooLong(`Row ${number}, column ${long + 1}`)
      if (number === 1 && cells.length <= 2 && /^sep=/i.test(cells[0] ?? '')) continue
      yield { number, cells }
    }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    throw notReadable(
      'quote-not-closed',
      `After row ${number} a quotation mark is opened and never closed. Close or remove it, and send the file again.`,
    )
  } finally {
    source.destroy()
  }
}

/** Passes text on as long as no line of it is longer than a row may be: only in quotes a row then goes on for longer. */
async function* boundedLines(pieces: AsyncIterable<string>, delimiter: string): AsyncGenerator<string> {
  let line = 1
  let characters = 0
  let delimiters = 0
  for await (const piece of pieces) {
    for (let at = 0; at < piece.length; at += 1) {
      const sign = piece[at]
      characters += 1
      if (sign === delimiter) delimiters += 1
      else if (sign === '\n' || sign === '\r') {
        line += 1
        characters = 0
        delimiters = 0
      }
      if (characters > LONGEST_ROW) throw rowTooLong(`Line ${line}`)
      if (delimiters > MOST_DELIMITERS) throw tooManyColumns(line)
    }
    yield piece
  }
}

async function beginning(path: string, encoding: Awaited<ReturnType<typeof textEncoding>>): Promise<string> {
  let text = ''
  for await (const piece of readText(path, encoding)) {
    text += piece
    if (text.length >= SAMPLE) break
  }
  return text.slice(0, SAMPLE)
}

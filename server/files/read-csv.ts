import { Readable } from 'node:stream'
import { CsvError, parse } from 'csv-parse'
import type { FileRow } from '../domain/import/file-row.ts'
import { sniffDelimiter } from './sniff-delimiter.ts'
import { notReadable } from './sniff-format.ts'
import { readText, textEncoding } from './text-encoding.ts'

const SAMPLE = 65_536
/** No row of ours is longer; an open quote would else take the rest of the file for one cell. */
const LONGEST_ROW = 1_048_576

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
  const source = Readable.from(readText(path, encoding))
  source.once('error', (error) => parser.destroy(error))
  source.pipe(parser)
  let number = 0
  try {
    for await (const cells of parser as AsyncIterable<string[]>) {
      number += 1
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

async function beginning(path: string, encoding: Awaited<ReturnType<typeof textEncoding>>): Promise<string> {
  let text = ''
  for await (const piece of readText(path, encoding)) {
    text += piece
    if (text.length >= SAMPLE) break
  }
  return text.slice(0, SAMPLE)
}

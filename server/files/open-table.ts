import fs from 'node:fs/promises'
import type { FileRow } from '../domain/import/file-row.ts'
import { requireBoundedJson } from './bounded-json.ts'
import { readCsv } from './read-csv.ts'
import { type MergedCell, readSheetRows } from './read-xlsx.ts'
import { type FileFormat, notReadable, sniffFormat } from './sniff-format.ts'
import { readWorkbookParts } from './workbook-parts.ts'
import { openWorkbookZip } from './workbook-zip.ts'

/** A file of rows. `merged` is known once all rows are read. */
export interface OpenedTable {
  readonly format: Exclude<FileFormat, 'json'>
  /** The sheets of the workbook; of text there are none. */
  readonly sheets: readonly string[]
  readonly sheet: string | null
  readonly rows: AsyncIterable<FileRow>
  readonly merged: readonly MergedCell[]
  close(): void
}

/** What is in a file: a table, or JSON. */
export type OpenedFile = OpenedTable | { readonly format: 'json'; readonly content: unknown; close(): void }

/** So many times its own size a workbook may take unpacked: a real one takes five to fifteen times. */
const UNPACKED = 12

/**
 * Opens a file that somebody sent, by what it is and not by its name. In: how large it may be in bytes; the sheet of a
 * workbook to read (left out: the first). Refuses what is no table or JSON with what to do about it.
 */
export async function openTable(path: string, mostBytes: number, sheet?: string): Promise<OpenedFile> {
  const format = await sniffFormat(path)
  if (format === 'json') return { format, content: await readJson(path), close: () => {} }
  if (format === 'csv') return { format, sheets: [], sheet: null, rows: readCsv(path), merged: [], close: () => {} }
  const zip = await openWorkbookZip(path, mostBytes * UNPACKED)
  try {
    const workbook = await readWorkbookParts(zip)
    const chosen = sheet === undefined ? workbook.sheets[0]! : workbook.sheets.find(({ name }) => name === sheet)
    if (!chosen) throw notReadable('no-such-sheet', `The workbook has no sheet "${sheet}".`)
    const merged: MergedCell[] = []
    const rows = readSheetRows(zip, workbook, chosen.part, merged)
    return {
      format,
      sheets: workbook.sheets.map(({ name }) => name),
      sheet: chosen.name,
      rows,
      merged,
      close: zip.close,
    }
  } catch (error) {
    zip.close()
    throw error
  }
}

async function readJson(path: string): Promise<unknown> {
  const text = (await fs.readFile(path, 'utf8')).replace(/^\ufeff/, '')
  requireBoundedJson(text)
  try {
    return JSON.parse(text)
  } catch (error) {
    throw notReadable(
      'no-json',
      `The file begins like JSON and is none: ${error instanceof Error ? error.message.slice(0, 200) : ''}`,
    )
  }
}

import { stringify } from 'csv-stringify/sync'
import type { Cell } from '../domain/import/file-row.ts'

export type TableFormat = 'csv' | 'xlsx'

/** A file to be sent, with its media type. */
export interface WrittenFile {
  readonly name: string
  readonly type: string
  readonly content: Buffer
}

const TYPES = {
  csv: 'text/csv; charset=utf-8',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
} as const

/**
 * Writes rows as a file that spreadsheet programs open: CSV in UTF-8 with a byte order mark, or a workbook in which every
 * text is text, so that no program takes it for a number, a date or a formula.
 */
export async function writeTable(
  name: string,
  format: TableFormat,
  rows: readonly (readonly Cell[])[],
): Promise<WrittenFile> {
  const file = { name: `${name}.${format}`, type: TYPES[format] }
  if (format === 'csv')
    return {
      ...file,
      content: Buffer.from(
        stringify(
          rows.map((row) => row.map(guarded)),
          { bom: true, record_delimiter: 'windows' },
        ),
      ),
    }
  const sheet = rows.map((row) =>
    row.map((value) => (typeof value === 'number' ? { value } : { value, type: String, format: '@' })),
  )
  const { default: writeXlsxFile } = await import('write-excel-file/node')
  return { ...file, content: await writeXlsxFile(sheet).toBuffer() }
}

/**
 * A cell that a spreadsheet program would take for a formula gets an apostrophe, which it takes for text; `cellText` takes
 * it off again.
 */
const guarded = (cell: Cell): Cell => (typeof cell === 'string' && /^'*[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell)

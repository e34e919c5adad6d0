import { saveFile } from './save-file.ts'
import { type Cell, type DateCell, isDate, toCsv } from './to-csv.ts'

export type TableFormat = 'csv' | 'xlsx'

/** By this mark spreadsheets see that a text is UTF-8. */
const BYTE_ORDER_MARK = '\ufeff'

/** `Soldiers by platoon`, 2026-11-25: `soldiers-by-platoon-2026-11-25.csv`. */
export const tableFileName = (caption: string, day: string, format: TableFormat): string =>
  `${
    caption
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 80) || 'table'
  }-${day}.${format}`

const widthOf = (cell: Cell): number => (isDate(cell) ? ('day' in cell ? 10 : 16) : String(cell ?? '').length)

/** A real date of a spreadsheet. It knows no zones: a moment is written as UTC, as in the CSV. */
const dateOf = (cell: DateCell) =>
  'day' in cell
    ? { value: new Date(`${cell.day}T00:00:00Z`), format: 'yyyy-mm-dd' }
    : { value: new Date(cell.moment), format: 'yyyy-mm-dd hh:mm' }

/** The rows as a workbook of one sheet. Text is stored as text, so that nothing in it is run as a formula. */
export async function toXlsx(rows: readonly (readonly Cell[])[]): Promise<Blob> {
  const { default: writeXlsxFile } = await import('write-excel-file/browser')
  const widths = (rows[0] ?? []).map((_, column) => ({
    width: Math.min(60, Math.max(8, ...rows.slice(0, 200).map((row) => widthOf(row[column] ?? null) + 2))),
  }))
  const sheet = rows.map((row, place) =>
    row.map((cell) => {
      if (cell === null || cell === '') return null
      const weight = place === 0 ? ({ fontWeight: 'bold' } as const) : {}
      if (isDate(cell)) return { ...dateOf(cell), type: Date, ...weight }
      return typeof cell === 'number'
        ? { value: cell, type: Number, ...weight }
        : { value: cell, type: String, ...weight }
    }),
  )
  return writeXlsxFile(sheet, { columns: widths, stickyRowsCount: 1 }).toBlob()
}

/** Hands the reader a table as a file: the first row is the head. */
export async function saveTable(
  caption: string,
  day: string,
  format: TableFormat,
  rows: readonly (readonly Cell[])[],
): Promise<void> {
  const [head = [], ...body] = rows
  const content =
    format === 'xlsx'
      ? await toXlsx(rows)
      : new Blob([BYTE_ORDER_MARK, toCsv(head.map(String), body)], { type: 'text/csv;charset=utf-8' })
  saveFile(tableFileName(caption, day, format), content)
}

import { excelSerialToIso } from '../domain/import/excel-serial.ts'
import type { Cell, CellProblem, FileRow } from '../domain/import/file-row.ts'
import { LONGEST_CELL, MOST_COLUMNS, MOST_ROWS_READ } from './limits.ts'
import { damagedWorkbook, parseXml } from './parse-xml.ts'
import { cellTooLong, tooManyColumns, tooManyRows } from './refusals.ts'
import type { Workbook } from './workbook-parts.ts'
import type { WorkbookZip } from './workbook-zip.ts'

/** A cell that spans columns of a row, first and last from 0. */
export interface MergedCell {
  readonly row: number
  readonly from: number
  readonly to: number
}

/** Characters of a wrong value that are said. */
const SHOWN = 40

interface OpenCell {
  column: number
  type: string
  style: number
  text: string
  hasFormula: boolean
}

/**
 * The rows of one sheet, as they are read from the file, so that memory stays small. Days and times come in ISO 8601 by
 * the workbook's date system, numbers as numbers, formulas as the value kept with them. `merged` is filled on the way.
 */
export async function* readSheetRows(
  zip: WorkbookZip,
  workbook: Workbook,
  part: string,
  merged: MergedCell[],
): AsyncGenerator<FileRow> {
  let done: FileRow[] = []
  let number = 0
  let cells: Cell[] = []
  let problems: CellProblem[] = []
  let cell: OpenCell | null = null
  let reads: 'value' | 'text' | null = null
  const pieces = parseXml(zip.text(part), {
    open(name, attributes) {
      if (name === 'row') {
        number = rowNumber(attributes().r, number)
        cells = []
        problems = []
      } else if (name === 'c') {
        const { r, t = 'n', s = '0' } = attributes()
        const column = r === undefined ? cells.length : columnOf(r)
        if (column < 0) throw damagedWorkbook()
        if (column >= MOST_COLUMNS) throw tooManyColumns(number)
        cell = { column, type: t, style: Number(s), text: '', hasFormula: false }
      } else if (name === 'mergeCell') {
        const found = /^([A-Z]+)(\d+):([A-Z]+)\d+$/.exec(attributes().ref ?? '')
        if (found && merged.length < MOST_COLUMNS)
          merged.push({ row: Number(found[2]), from: columnOf(found[1]!), to: columnOf(found[3]!) })
      } else if (cell && name === 'f') cell.hasFormula = true
      else if (cell) reads = name === 'v' ? 'value' : name === 't' ? 'text' : name === 'rPh' ? null : reads
    },
    text(more) {
      if (!cell || !reads) return
      cell.text += more
      if (cell.text.length > LONGEST_CELL) throw cellTooLong(`Row ${number}, column ${cell.column + 1}`)
    },
    close(name) {
      if (name === 'v' || name === 't') reads = null
      if (name === 'c' && cell) {
        while (cells.length < cell.column) cells.push('')
        const value = cellValue(cell, workbook)
        if (typeof value === 'object' && problems.length < MOST_COLUMNS)
          problems.push({ column: cell.column, detail: value.wrong })
        cells[cell.column] = typeof value === 'object' ? '' : value
        cell = null
      }
      if (name === 'row') done.push(problems.length > 0 ? { number, cells, problems } : { number, cells })
    },
  })
  for await (const _ of pieces) {
    yield* done
    done = []
  }
}

/** The number of a row as the file gives it, or the one after the last; a file that does not count upward is damaged. */
function rowNumber(given: string | undefined, last: number): number {
  const number = given === undefined ? last + 1 : Number(given)
  if (!Number.isInteger(number) || number <= last) throw damagedWorkbook()
  if (number > MOST_ROWS_READ) throw tooManyRows()
  return number
}

function cellValue({ type, style, text, hasFormula }: OpenCell, workbook: Workbook): Cell | { wrong: string } {
  if (hasFormula && text === '' && type !== 'str') {
    return {
      wrong:
        'The cell holds a formula whose value was never worked out. Open the file in a spreadsheet program and save it.',
    }
  }
  switch (type) {
    case 's':
      return workbook.strings[Number(text)] ?? ''
    case 'b':
      return text === '1' ? 'true' : 'false'
    case 'e':
      return { wrong: `The cell holds the error ${text}. Mend the formula.` }
    case 'n':
      if (text === '') return ''
      if (!Number.isFinite(Number(text)))
        return { wrong: `“${text.slice(0, SHOWN)}” is no number, or one that is too large. Mend the cell.` }
      return numberOf(Number(text), workbook, style)
    default:
      return text
  }
}

function numberOf(number: number, { styles, dateSystem }: Workbook, style: number): Cell | { wrong: string } {
  const shown = styles[style] ?? 'plain'
  if (typeof shown === 'object')
    return Number.isInteger(number) && number >= 0 ? String(number).padStart(shown.digits, '0') : number
  if (shown === 'plain') return number
  return (
    excelSerialToIso(number, dateSystem) ?? {
      wrong: `The number ${number} is shown as a date and is none; 29 February 1900 never was.`,
    }
  )
}

/** The number of a column, from 0, by its letters, as in "AB" or "AB12". */
function columnOf(reference: string): number {
  let column = 0
  for (const letter of reference) {
    const value = letter.charCodeAt(0) - 64
    if (value < 1 || value > 26) break
    column = column * 26 + value
  }
  return column - 1
}

/** What stands in a cell: text as written, a day or time of a spreadsheet in ISO 8601, or a number it keeps as one. */
export type Cell = string | number

/** A cell that cannot be read at all, by its column from 0. */
export interface CellProblem {
  readonly column: number
  readonly detail: string
}

/** A row of a file, by its number as the reader's program shows it, from 1. */
export interface FileRow {
  readonly number: number
  readonly cells: readonly Cell[]
  readonly problems?: readonly CellProblem[]
}

/** A cell as text; a number without what binary fractions add to it, text without the apostrophe that keeps it from being a formula. */
export function cellText(cell: Cell | undefined): string {
  if (typeof cell === 'number') return String(Number(cell.toPrecision(15)))
  return (cell ?? '').trim().replace(/^'(?='*[=+\-@])/, '')
}

/** Whether nothing stands in a row. */
export const isBlankRow = (row: FileRow): boolean => row.cells.every((cell) => cellText(cell) === '')

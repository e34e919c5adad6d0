/** A day of the calendar (`2026-12-05`), or a moment as RFC 3339 has it. */
export type DateCell = { readonly day: string } | { readonly moment: string }

export type Cell = string | number | null | DateCell

/** Whether a cell is a day or a moment. */
export const isDate = (cell: Cell): cell is DateCell => typeof cell === 'object' && cell !== null

/** Text that a spreadsheet would take for a formula. */
const FORMULA = /^[=+\-@\t\r]/

const toField = (cell: Cell): string => {
  if (cell === null) return ''
  if (typeof cell === 'number') return String(cell)
  if (isDate(cell)) return 'day' in cell ? cell.day : cell.moment
  const safe = FORMULA.test(cell) ? `'${cell}` : cell
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}

/**
 * A table as CSV (RFC 4180: commas, CRLF, doubled quotes). Text that begins like a formula gets an apostrophe in front, so
 * that a spreadsheet shows it and does not run it; numbers stay numbers, negative ones, too. null is an empty field. Days and
 * moments are as ISO 8601 has them.
 */
export const toCsv = (head: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [head, ...rows].map((row) => `${row.map(toField).join(',')}\r\n`).join('')

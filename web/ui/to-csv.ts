export type Cell = string | number | null

/** Text that a spreadsheet would take for a formula. */
const FORMULA = /^[=+\-@\t\r]/

const toField = (cell: Cell): string => {
  if (cell === null) return ''
  if (typeof cell === 'number') return String(cell)
  const safe = FORMULA.test(cell) ? `'${cell}` : cell
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}

/**
 * A table as CSV (RFC 4180: commas, CRLF, doubled quotes). Text that begins like a formula gets an apostrophe in front, so
 * that a spreadsheet shows it and does not run it; numbers stay numbers, negative ones, too. null is an empty field.
 */
export const toCsv = (head: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [head, ...rows].map((row) => `${row.map(toField).join(',')}\r\n`).join('')

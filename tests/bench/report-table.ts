/** Columns of text, the first to the left and numbers to the right. */
export function table(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)))
  const isNumber = (cell: string) => /^[\d.,]*$/.test(cell)
  return rows
    .map((row) =>
      row.map((cell, at) => (isNumber(cell) ? cell.padStart(widths[at]!) : cell.padEnd(widths[at]!))).join('  '),
    )
    .map((line) => line.trimEnd())
    .join('\n')
}

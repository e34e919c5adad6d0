import type { Column, ImportKind } from './column.ts'
import { IMPORT_KINDS } from './column.ts'
import { cellText, type FileRow, isBlankRow } from './file-row.ts'
import { matchColumns } from './match-columns.ts'

export interface Header {
  /** Its place among the rows given, from 0. */
  readonly at: number
  readonly labels: readonly string[]
  readonly kind: ImportKind
}

/** A header stands this high up at the latest; above it may be titles. */
const ROWS_LOOKED_AT = 30

/**
 * Finds the row with the labels of the columns, under titles and empty rows, and what the file seems to hold: where most
 * labels are known. A cell that spans columns in the row above (`merged`, first and last column by row number) goes before the labels under it, and
 * a label that reaches down over several rows stands for its column. Null where no row has a label that is known.
 */
export function findHeader(
  rows: readonly FileRow[],
  columns: Readonly<Record<ImportKind, readonly Column[]>>,
  merged: readonly { readonly row: number; readonly from: number; readonly to: number }[] = [],
  only?: ImportKind,
): Header | null {
  let best: (Header & { score: number }) | null = null
  rows.slice(0, ROWS_LOOKED_AT).forEach((row, at) => {
    if (isBlankRow(row)) return
    const labels = labelsOf(rows, at, merged)
    for (const kind of only ? [only] : IMPORT_KINDS) {
      const matches = matchColumns(labels, columns[kind])
      const needed = columns[kind].filter((one) => one.needed)
      const found = needed.filter(({ key }) => matches.some((match) => match.key === key)).length
      const likeness = matches.reduce((sum, match) => sum + match.likeness, 0)
      const score = likeness === 0 ? 0 : likeness + 3 * (found / needed.length)
      if (score > (best?.score ?? 0)) best = { at, labels, kind, score }
    }
  })
  const found = best as (Header & { score: number }) | null
  return found && { at: found.at, labels: found.labels, kind: found.kind }
}

function labelsOf(rows: readonly FileRow[], at: number, merged: Parameters<typeof findHeader>[2]): string[] {
  const own = rows[at]!
  const above = rows[at - 1]
  const groups = (merged ?? []).filter(({ row }) => row === above?.number && above.number === own.number - 1)
  const width = Math.max(own.cells.length, groups.length > 0 ? above!.cells.length : 0)
  const seen = new Map<string, number>()
  return Array.from({ length: width }, (_, column) => {
    const label = cellText(own.cells[column]).replace(/\s+/g, ' ')
    const group = groups.find(({ from, to }) => from <= column && column <= to && to > from)
    const over = group
      ? cellText(above!.cells[group.from])
      : groups.length > 0 && label === ''
        ? cellText(above!.cells[column])
        : ''
    const whole = [over, label].filter((part) => part !== '').join(' ')
    const times = (seen.get(whole) ?? 0) + 1
    seen.set(whole, times)
    return whole !== '' && times > 1 ? `${whole} (${times})` : whole
  })
}

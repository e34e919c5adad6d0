import { useRef } from 'react'
import type { Fact } from './table-cells.ts'
import { type Pages, TableFiles } from './table-files.tsx'
import './table.css'

export interface Column<Row> {
  head: string
  cell: (row: Row) => React.ReactNode
  /** Figures, set to the right. */
  numeric?: boolean
  /** On a phone the value speaks for itself and needs no label. */
  bare?: boolean
  /** Not broken into two lines: dates and short words never, names and the like where there is room. */
  tight?: boolean | 'wide'
  className?: string
  /** What the column is in a file, one fact a column; left out, what it says on the screen; empty, nothing. */
  facts?: readonly Fact<Row>[]
}

const classOf = <Row,>({ numeric, tight, className }: Column<Row>): string | undefined =>
  [numeric ? 'numeric' : '', tight === 'wide' ? 'tight-wide' : tight ? 'tight' : '', className ?? '']
    .join(' ')
    .trim() || undefined

interface TableProps<Row> {
  caption: string
  columns: readonly Column<Row>[]
  rows: readonly Row[]
  rowKey: (row: Row) => string
  /** Where more can be read, for a file of the whole list. */
  pages?: Pages
}

/** A list as a table; where it is narrow each row becomes a short paragraph led by its first column. */
export function Table<Row>({ caption, columns, rows, rowKey, pages }: TableProps<Row>) {
  const table = useRef<HTMLTableElement>(null)
  const drawn = useRef(rows)
  drawn.current = rows
  // The roles are written out since changing `display` takes them away in some browsers.
  return (
    // biome-ignore-start lint/a11y/noRedundantRoles: see above
    <div className="table-frame">
      <table ref={table} className="table" role="table">
        <caption className="out-of-sight">{caption}</caption>
        <thead role="rowgroup">
          <tr role="row">
            {columns.map((column) => (
              <th key={column.head} role="columnheader" scope="col" className={classOf({ ...column, tight: false })}>
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {rows.map((row) => (
            <tr key={rowKey(row)} role="row">
              {columns.map((column, index) => (
                <td
                  key={column.head}
                  role="cell"
                  data-label={index === 0 || column.bare ? undefined : column.head}
                  className={classOf(column)}
                >
                  {column.cell(row)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <TableFiles
        caption={caption}
        pages={pages}
        read={(readCells) => table.current && readCells(table.current, columns, drawn.current)}
      />
    </div>
    // biome-ignore-end lint/a11y/noRedundantRoles: see above
  )
}

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
  /** What the rows are asked for by when this column is picked to sort by. */
  sort?: string
}

/** What a list is sorted by: the `sort` of a column, with a minus the other way round. */
export interface Sorting {
  by: string
  onSort: (by: string) => void
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
  /** Where the list can be put in another order. */
  sorting?: Sorting
}

/** A list as a table; where it is narrow each row becomes a short paragraph led by its first column. */
export function Table<Row>({ caption, columns, rows, rowKey, pages, sorting }: TableProps<Row>) {
  const table = useRef<HTMLTableElement>(null)
  const drawn = useRef(rows)
  drawn.current = rows
  // The roles are written out since changing `display` takes them away in some browsers.
  return (
    // biome-ignore-start lint/a11y/noRedundantRoles: see above
    <div className="table-frame">
      {sorting && <SortChoice columns={columns} sorting={sorting} />}
      <table ref={table} className="table" role="table">
        <caption className="out-of-sight">{caption}</caption>
        <thead role="rowgroup">
          <tr role="row">
            {columns.map((column) => (
              <th
                key={column.head}
                role="columnheader"
                scope="col"
                className={classOf({ ...column, tight: false })}
                aria-sort={directionOf(column, sorting)}
              >
                <SortHead column={column} sorting={sorting} />
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

const directionOf = <Row,>({ sort }: Column<Row>, sorting: Sorting | undefined) => {
  if (!sort || !sorting) return undefined
  if (sorting.by === sort) return 'ascending'
  return sorting.by === `-${sort}` ? 'descending' : 'none'
}

interface SortHeadProps<Row> {
  column: Column<Row>
  sorting: Sorting | undefined
}

/** The head of a column; where one can sort by it, a button that does, and the other way round when pressed again. */
function SortHead<Row>({ column, sorting }: SortHeadProps<Row>) {
  const { head, sort } = column
  if (!sort || !sorting) return head
  const direction = directionOf(column, sorting)
  return (
    <button
      type="button"
      className="sort-head"
      onClick={() => sorting.onSort(direction === 'ascending' ? `-${sort}` : sort)}
    >
      {head}
      <span className="sort-arrow" aria-hidden="true">
        {direction === 'ascending' ? '↑' : direction === 'descending' ? '↓' : ''}
      </span>
    </button>
  )
}

/** The same choice where the list is too narrow for heads. */
function SortChoice<Row>({ columns, sorting }: { columns: readonly Column<Row>[]; sorting: Sorting }) {
  return (
    <label className="sort-choice no-print">
      <span>Sort by</span>
      <select value={sorting.by} onChange={(event) => sorting.onSort(event.target.value)}>
        {columns
          .filter(({ sort }) => sort)
          .flatMap(({ head, sort }) => [
            <option key={head} value={sort}>
              {head}
            </option>,
            <option key={`-${head}`} value={`-${sort}`}>
              {head}, last first
            </option>,
          ])}
      </select>
    </label>
  )
}

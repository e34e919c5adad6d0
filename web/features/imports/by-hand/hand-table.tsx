import { useQuery } from '@tanstack/react-query'
import { useEffect, useId, useRef, useState } from 'react'
import { listsQuery } from '../../../api/soldiers/arms-and-grades.ts'
import { carriesArms } from '../../../domain/soldiers/carries-arms.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { KINDS } from '../format-import.ts'
import {
  columnsOf,
  emptyRow,
  HAND_COLUMNS,
  type HandKind,
  type HandRows,
  isBlock,
  nextRow,
  toText,
  withBlock,
  withCell,
  writtenRows,
} from './hand-rows.ts'
import { useKeptRows } from './kept-rows.ts'
import './hand-table.css'

interface HandTableProps {
  busy: boolean
  /** The rows as the text of a file, and what they are called. */
  onRows: (text: string, name: string) => void
}

const KIND_CHOICES = Object.keys(HAND_COLUMNS) as HandKind[]
const UP_OR_DOWN: Readonly<Record<string, number>> = { ArrowUp: -1, ArrowDown: 1 }

/** Rows written by hand: Enter begins the next one, the arrows go up and down, and what is pasted spreads over the cells. */
export function HandTable({ busy, onRows }: HandTableProps) {
  const [filters, setFilters] = useFilters(['rows'])
  const kind = KIND_CHOICES.find((each) => each === filters.rows) ?? 'roster'
  const titles = columnsOf(kind, carriesArms(useQuery(listsQuery).data))
  const [kept, setKept] = useKeptRows()
  const rows = kept?.of === titles.join() ? kept.rows : [emptyRow(titles)]
  const setRows = (changed: HandRows) => setKept({ of: titles.join(), rows: changed })
  const [wanted, setWanted] = useState<{ row: number; column: number } | null>(null)
  const table = useRef<HTMLTableElement>(null)
  const hint = useId()
  const written = writtenRows(titles, rows).length
  useEffect(() => {
    if (wanted) table.current?.querySelector<HTMLInputElement>(`[data-cell="${wanted.row}-${wanted.column}"]`)?.focus()
  }, [wanted])
  const goOn = (after: number) => {
    if (after + 1 === rows.length) setRows([...rows, nextRow(titles, rows[after]!)])
    setWanted({ row: after + 1, column: 0 })
  }
  const onKey = (event: React.KeyboardEvent, row: number, column: number) => {
    const step = UP_OR_DOWN[event.key]
    if (event.key !== 'Enter' && step === undefined) return
    if (event.nativeEvent.isComposing) return
    event.preventDefault()
    if (step === undefined) goOn(row)
    else if (rows[row + step]) setWanted({ row: row + step, column })
  }
  return (
    <div className="hand">
      <SelectField
        label="What the rows are"
        value={kind}
        hint={written > 0 ? 'Another choice begins an empty table.' : undefined}
        onChange={(event) => setFilters({ rows: event.target.value })}
      >
        {KIND_CHOICES.map((each) => (
          <option key={each} value={each}>
            {KINDS[each].name}
          </option>
        ))}
      </SelectField>
      <p id={hint} className="muted small">
        Enter begins the next row and takes over what mostly stays the same. Cells copied from a spreadsheet can be
        pasted into any cell.
      </p>
      <HandCells
        table={table}
        caption={`${KINDS[kind].name}, by hand`}
        hint={hint}
        titles={titles}
        rows={rows}
        onRows={setRows}
        onKey={onKey}
      />
      <div className="hand-buttons">
        <Button
          kind="main"
          disabled={busy || written === 0}
          onClick={() => onRows(toText(titles, rows), `${KINDS[kind].name} by hand`)}
        >
          {written === 1 ? 'Look at this row' : 'Look at these rows'}
        </Button>
        <Button onClick={() => goOn(rows.length - 1)}>Another row</Button>
      </div>
    </div>
  )
}

interface HandCellsProps {
  table: React.RefObject<HTMLTableElement | null>
  caption: string
  /** The id of what says how to write in it. */
  hint: string
  titles: readonly string[]
  rows: HandRows
  onRows: (rows: HandRows) => void
  onKey: (event: React.KeyboardEvent, row: number, column: number) => void
}

function HandCells({ table, caption, hint, titles, rows, onRows, onKey }: HandCellsProps) {
  return (
    <div className="hand-frame">
      <table ref={table} className="hand-table" aria-describedby={hint}>
        <caption className="out-of-sight">{caption}</caption>
        <thead>
          <tr>
            {titles.map((title) => (
              <th key={title} scope="col">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows are only added at the end
            <tr key={row}>
              {titles.map((title, column) => (
                <td key={title}>
                  <input
                    data-cell={`${row}-${column}`}
                    aria-label={`${title}, row ${row + 1}`}
                    autoComplete="off"
                    spellCheck={false}
                    value={cells[column]}
                    onChange={(event) => onRows(withCell(rows, row, column, event.target.value))}
                    onKeyDown={(event) => onKey(event, row, column)}
                    onPaste={(event) => {
                      const text = event.clipboardData.getData('text/plain')
                      if (!isBlock(text)) return
                      event.preventDefault()
                      onRows(withBlock(rows, row, column, text))
                    }}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

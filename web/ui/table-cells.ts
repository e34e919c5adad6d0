import { withoutIsolates } from '#calendar/isolate.ts'
import type { Cell } from './to-csv.ts'

/** A figure as we write it: signs, digits with gaps or commas between thousands, decimals; shares stay text. */
const FIGURE = /^[-−–+]?\d{1,3}(?:[,\u00a0\u2009\u202f ]?\d{3})*(?:\.\d+)?$/

/** The number that a cell shows; anything else, such as "–", a share or a date, stays the words it is. */
export function readFigure(text: string): Cell {
  if (!FIGURE.test(text)) return text
  const value = Number(text.replace(/[,\s]/g, '').replace(/^[−–]/, '-'))
  return Number.isSafeInteger(value) || text.includes('.') ? value : text
}

/** What a column of a table is in a file: one column or several, each with one fact. */
export interface Fact<Row> {
  head: string
  of: (row: Row) => Cell
}

interface FileColumn<Row> {
  facts?: readonly Fact<Row>[]
}

/**
 * A table as rows of a file, the heads first: the facts of a column where it names them, else the words on the screen, and
 * figures as numbers in the columns set to the right. What is folded away on the screen is not in it.
 * In: the table as drawn; its columns and rows in the order in which they are drawn.
 */
export function readCells<Row>(
  table: HTMLTableElement,
  columns: readonly FileColumn<Row>[] = [],
  rows: readonly Row[] = [],
): Cell[][] {
  return [...table.rows].map((drawn, place) =>
    [...drawn.cells].flatMap((cell, column) => {
      const { facts } = columns[column] ?? {}
      if (facts) return facts.map(({ head, of }) => (place === 0 ? head : of(rows[place - 1]!)))
      const text = wordsOf(cell)
      return [place > 0 && cell.classList.contains('numeric') ? readFigure(text) : text]
    }),
  )
}

/** Lines of a cell, between spaces. */
// biome-ignore lint/performance/useDomNodeTextContent: what is folded away is not seen, and not meant
const wordsOf = (cell: HTMLElement): string => withoutIsolates(cell.innerText).replace(/\s+/g, ' ').trim()

import type { Cell } from './to-csv.ts'

/** A figure as we write it: signs, digits with gaps or commas between thousands, decimals; shares stay text. */
const FIGURE = /^[-−–+]?\d{1,3}(?:[,\u00a0\u2009\u202f ]?\d{3})*(?:\.\d+)?$/

/** The number that a cell shows; anything else, such as "–", a share or a date, stays the words it is. */
export function readFigure(text: string): Cell {
  if (!FIGURE.test(text)) return text
  const value = Number(text.replace(/[,\s]/g, '').replace(/^[−–]/, '-'))
  return Number.isSafeInteger(value) || text.includes('.') ? value : text
}

/**
 * What a table on the screen says, row by row, with its heads first: the same words, and figures as numbers in the
 * columns set to the right. What is folded away on the screen is not in it.
 */
export function readCells(table: HTMLTableElement): Cell[][] {
  return [...table.rows].map((row, place) =>
    [...row.cells].map((cell) => {
      const text = wordsOf(cell)
      return place > 0 && cell.classList.contains('numeric') ? readFigure(text) : text
    }),
  )
}

/** Lines of a cell, between spaces. */
// biome-ignore lint/performance/useDomNodeTextContent: what is folded away is not seen, and not meant
const wordsOf = (cell: HTMLElement): string => cell.innerText.replace(/\s+/g, ' ').trim()

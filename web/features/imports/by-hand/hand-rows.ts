/** A table as it is written by hand: rows of cells, all of the same width. */
export type HandRows = readonly (readonly string[])[]

/** The kinds of rows that are written by hand, with the labels a file of them would have. */
export const HAND_COLUMNS = {
  roster: ['Roster number', 'Family name', 'Given name', 'Grade', 'Arms', 'Unit', 'From'],
  awards: ['Roster number', 'Certification', 'Awarded on', 'Valid through', 'Evidence'],
  sponsorships: ['Candidate', 'Sponsor', 'From'],
  appointments: ['Roster number', 'Standard', 'From'],
} as const

export type HandKind = keyof typeof HAND_COLUMNS

/** The labels of a kind of rows; a unit that carries nothing is not asked for arms. */
export const columnsOf = (kind: HandKind, carries: boolean): readonly string[] =>
  HAND_COLUMNS[kind].filter((title) => carries || title !== 'Arms')

/** What mostly is as in the row above, so that it is not written again. */
const CARRIED: readonly string[] = [
  'Grade',
  'Arms',
  'Unit',
  'From',
  'Sponsor',
  'Standard',
  'Certification',
  'Awarded on',
  'Valid through',
]

const isBlank = (row: readonly string[]): boolean => row.every((cell) => cell.trim() === '')

export const emptyRow = (titles: readonly string[]): string[] => titles.map(() => '')

/** A row to go on with, where what mostly stays the same is as in the last one. */
export const nextRow = (titles: readonly string[], last: readonly string[]): string[] =>
  titles.map((title, at) => (CARRIED.includes(title) ? (last[at] ?? '') : ''))

export const withCell = (rows: HandRows, row: number, column: number, text: string): HandRows =>
  rows.map((cells, at) => (at === row ? cells.map((cell, place) => (place === column ? text : cell)) : cells))

/** Puts what was copied from a spreadsheet where the cursor is; rows that are not there are added, what is too wide is left out. */
export function withBlock(rows: HandRows, row: number, column: number, block: string): HandRows {
  const width = rows[0]!.length
  const pasted = splitBlock(block)
  const all = [...rows]
  while (all.length < row + pasted.length) all.push(Array.from({ length: width }, () => ''))
  return all.map((cells, at) => {
    const put = pasted[at - row]
    return put ? cells.map((cell, place) => put[place - column] ?? cell) : cells
  })
}

/** Whether a text is more than one cell of a spreadsheet. */
export const isBlock = (text: string): boolean => /[\t\n]/.test(text.trim())

const splitBlock = (block: string): string[][] =>
  block
    .replace(/\r?\n$/, '')
    .split(/\r?\n/)
    .map((line) => line.split('\t').map((cell) => cell.trim()))

/** How many rows say more than what they took over from the row above. */
export const writtenRows = (titles: readonly string[], rows: HandRows): HandRows =>
  rows.filter((row) => !isBlank(row.filter((_, at) => !CARRIED.includes(titles[at]!))))

/** The rows as the text of a file, labels first. */
export const toText = (titles: readonly string[], rows: HandRows): string =>
  [titles, ...writtenRows(titles, rows)].map((row) => row.map(quoted).join('\t')).join('\n')

const quoted = (cell: string): string => (/["\t\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)

/** What a file may hold, whatever its format. Beyond it nothing is read on, so that no file costs more than its size is worth. */

/** Characters of a cell, or of a text in JSON: what spreadsheet programs hold in one. */
export const LONGEST_CELL = 32_767
/** Characters of a piece of XML between two signs: a full cell, every character of it written as a reference. */
export const LONGEST_TOKEN = 400_000
/** Characters of a row of text, with all its cells, or of one thing in JSON. */
export const LONGEST_ROW = 1_048_576
export const MOST_COLUMNS = 1_000
/** With blank ones: what a sheet of a spreadsheet program has. */
export const MOST_ROWS_READ = 1_048_576
/** Different texts of a workbook. */
export const MOST_STRINGS = 2_000_000
/** Things in things in JSON. */
export const DEEPEST = 30

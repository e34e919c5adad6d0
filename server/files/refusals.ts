import { AppError } from '../errors.ts'
import { LONGEST_CELL, LONGEST_ROW, MOST_COLUMNS, MOST_ROWS_READ } from './limits.ts'
import { notReadable } from './sniff-format.ts'

const figures = new Intl.NumberFormat('en')

/** In: where it stands, in words, as "Row 7, column 3"; what it is called, "cell" or "text". */
export const cellTooLong = (where: string) =>
  notReadable(
    'cell-too-long',
    `${where}: there are more than ${figures.format(LONGEST_CELL)} characters. Shorten it, and send the file again.`,
  )

export const rowTooLong = (where: string) =>
  notReadable(
    'row-too-long',
    `${where}: there are more than ${figures.format(LONGEST_ROW)} characters. Send the table alone, with a line for each row.`,
  )

export const tooManyColumns = (row: number) =>
  notReadable(
    'too-many-columns',
    `Row ${row} has more than ${figures.format(MOST_COLUMNS)} columns. Send the table alone.`,
  )

export const tooManyRows = () =>
  notReadable('too-many-rows', `The table has more than ${figures.format(MOST_ROWS_READ)} rows. Send it in parts.`)

/** Whoever sent the file is gone, or the server stops. */
export const readingGivenUp = () =>
  new AppError('unavailable', 'given-up', 'Reading the file was given up. Nothing of it was kept; send it again.')

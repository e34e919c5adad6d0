import { type AppError, conflict } from '../../errors.ts'

/** The number belongs to somebody else. */
export const rosterNumberUsed = (number: string): AppError =>
  conflict(
    'roster-number-used',
    `Roster number ${number} belongs to another soldier. Look them up, or mend the number.`,
  )
